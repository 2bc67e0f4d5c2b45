import { angle } from '../quantities/angle.ts';
import { bearing } from '../quantities/bearing.ts';
import { clock } from '../quantities/clock.ts';
import { condition } from '../quantities/condition.ts';
import { coordinates } from '../quantities/coordinates.ts';
import { date } from '../quantities/date.ts';
import { duration } from '../quantities/duration.ts';
import { instant } from '../quantities/instant.ts';
import { distance, height, length } from '../quantities/length.ts';
import { moment } from '../quantities/moment.ts';
import { momentRange } from '../quantities/momentRange.ts';
import { share } from '../quantities/share.ts';
import { shutterRange } from '../quantities/shutterRange.ts';
import { speed } from '../quantities/speed.ts';
import { temperature } from '../quantities/temperature.ts';
import { timezone } from '../quantities/timezone.ts';
import { choice, count, identifier, text } from '../quantities/words.ts';
import { inlineKitSection } from './kitFields.ts';
import { shotSection, waterSection } from './shotFields.ts';
import { dictionary, field, list, type Model, nested, reference, scalar, section } from './table.ts';

const note = scalar(text('note', 'Free text.'), 'Anything else worth writing down.');

const severity = choice('severity', [
  { value: 'error', doc: 'Contradictory, impossible, or a safety limit is broken.' },
  { value: 'warning', doc: 'Will probably spoil the picture or the day.' },
  { value: 'hint', doc: 'Worth knowing.' },
  { value: 'off', doc: 'Not shown.' },
]);

export const partySection = section('party', 'Who goes, and who knows of it.', {
  people: scalar(count, 'How many go.'),
  contact: scalar(
    choice('contact', [
      { value: 'told', doc: 'Somebody at home knows where you go and when you are back.' },
      { value: 'not told', doc: 'Nobody knows yet.' },
    ]),
    'Whether somebody at home knows the plan.',
  ),
  'back-by': scalar(moment, 'When that person expects you back.'),
  note,
});

export const startSection = section('start', 'Where the day begins, and when.', {
  from: scalar(coordinates, 'Where you leave from.'),
  leave: scalar(moment, 'When you leave. Events are those of the first spot.'),
});

export const forecastHourSection = section('forecast hour', 'The weather from one hour on.', {
  at: scalar(clock, 'The hour.', { required: true }),
  cloud: scalar(share, 'How much of the sky is covered.'),
  wind: scalar(speed, 'Mean wind.'),
  gusts: scalar(speed, 'Gusts.'),
  'wind-from': scalar(bearing, 'Where the wind comes from.'),
  rain: scalar(share, 'Probability of rain.'),
  air: scalar(temperature, 'Temperature of the air.'),
  'dew-point': scalar(temperature, 'Dew point: a lens colder than this fogs.'),
  'cloud-base': scalar(length, 'Height of the clouds above the ground.'),
  'wind-aloft': scalar(speed, 'Wind at the height of the clouds.'),
});

export const forecastSection = section('forecast', 'A weather forecast, copied by hand.', {
  issued: scalar(instant, 'When the forecast was made.'),
  hours: list({ shape: 'section', section: forecastHourSection }, 'The hours, in order.'),
});

export const tideSection = section('tide', 'One high or low water, from a tide table.', {
  low: scalar(clock, 'The time of low water.'),
  high: scalar(clock, 'The time of high water.'),
  height: scalar(height, 'The height of the water above chart datum.'),
});

export const walkSection = section('walk', 'The walk from the car to the spot.', {
  distance: scalar(distance, 'Length of the path.'),
  climb: scalar(length, 'Metres climbed on the way there.'),
  time: scalar(duration, 'How long it takes, if you know better than the rule.'),
});

export const stanceSection = section('stance', 'What you stand on.', {
  on: scalar(
    choice('stance', [
      { value: 'ground', doc: 'Firm ground.' },
      { value: 'rock', doc: 'Rock, perhaps wet.' },
      { value: 'sand', doc: 'Sand: tripod legs sink.' },
      { value: 'wall', doc: 'A wall in front of the camera.' },
      { value: 'footbridge', doc: 'A bridge that shakes when somebody walks on it.' },
      { value: 'pier', doc: 'A pier or a jetty.' },
      { value: 'water', doc: 'In the water.' },
    ]),
    'What the tripod stands on.',
  ),
  'height-needed': scalar(length, 'How high the camera must be to see over what is in front.'),
});

export const spotSection = section('spot', 'A place where pictures are taken.', {
  id: scalar(identifier, 'The short name by which other lines refer to it.', { required: true }),
  name: scalar(text('name', 'A name for people.'), 'A name for people.'),
  at: scalar(coordinates, 'Where it is.', { required: true }),
  elevation: scalar(height, 'Height above the sea. It is not used as a height above the horizon.'),
  skyline: dictionary(
    bearing,
    angle,
    'How high the land stands in each direction, as angles: `{ E: 6°, SE: 9° }`.',
  ),
  drive: scalar(duration, 'The drive from the place before.'),
  walk: nested(walkSection, 'The walk from the car, and the same way back.'),
  arrive: scalar(moment, 'When you mean to stand there. When left out: as early as drive and walk allow.'),
  setup: scalar(duration, 'From arriving to being ready.'),
  pack: scalar(duration, 'From the last frame to leaving.'),
  open: scalar(momentRange, 'When the place is open: `06:00 .. 21:00`.'),
  permission: scalar(
    choice('permission', [
      { value: 'granted', doc: 'You have it.' },
      { value: 'not needed', doc: 'None is needed there.' },
      { value: 'asked', doc: 'Asked for, no answer yet.' },
      { value: 'unknown', doc: 'You do not know whether one is needed.' },
    ]),
    'Whether you may be there with a tripod.',
  ),
  stance: nested(stanceSection, 'What you stand on.'),
  hazards: list(
    {
      shape: 'scalar',
      quantity: text('hazard', 'A danger of the place.', [
        'deep water',
        'spillway upstream',
        'cliff edge',
        'tide',
      ]),
    },
    'Dangers of the place. Local rules and the people responsible there go before anything this tool says.',
  ),
  water: nested(waterSection, 'The water there.'),
  needs: list(
    { shape: 'scalar', quantity: condition },
    'What must hold for the visit to be worth it: `wind < 5 km/h`.',
  ),
  decide: scalar(moment, 'When to decide whether to go.'),
  otherwise: reference('spot', 'The spot to go to instead.'),
  shots: list({ shape: 'section', section: shotSection }, 'The pictures to take there, in order.'),
  note,
});

export const planSection = section('plan', 'One outing.', {
  plan: scalar(text('title', 'What the outing is called.'), 'What the outing is called.', { required: true }),
  date: scalar(date, 'The civil date at the first spot. Events and clock times follow it.', {
    required: true,
  }),
  timezone: scalar(timezone, 'The time zone of all clock times. Found from the coordinates when left out.'),
  kit: field(
    {
      shape: 'either',
      quantity: text(
        'path of a kit',
        'A path from this file to a kit file: `../kit/field-bag.shootkit.yaml`.',
        ['../kit/field-bag.shootkit.yaml'],
      ),
      section: inlineKitSection,
    },
    'The equipment: the path of a kit file, or the same keys right here.',
  ),
  bearings: scalar(
    choice('north', [
      { value: 'true', doc: 'Bearings count from true north, as on a map.' },
      { value: 'magnetic', doc: 'Bearings count from magnetic north, as a compass shows them.' },
    ]),
    'From which north bearings count that do not say so themselves. True north when left out.',
  ),
  party: nested(partySection, 'Who goes, and who knows of it.'),
  start: nested(startSection, 'Where the day begins, and when.'),
  forecast: nested(forecastSection, 'The weather forecast.'),
  tides: list({ shape: 'section', section: tideSection }, 'High and low waters, where there is a coast.'),
  spots: list({ shape: 'section', section: spotSection }, 'The spots, in the order of the day.'),
  effects: dictionary(
    text('effect and water', 'An effect, and if you like a kind of water behind it.', ['silky cascade']),
    shutterRange,
    'Shutter times that give a look to your taste: `{ silky cascade: 1 s .. 6 s }`.',
  ),
  checks: dictionary(
    text('finding', 'The code of a finding: `filter/uneven-sky`.', ['filter/uneven-sky']),
    severity,
    'Other severities for findings in this plan, or `off`.',
  ),
  thresholds: dictionary(
    text('threshold', 'The name of a habit that can be set.'),
    text('value', 'The value, in the unit of that threshold.'),
    'Habits, not physics, that this plan sets otherwise: `{ walking-factor: 1.2 }`.',
  ),
  note,
});

export type PlanModel = Model<typeof planSection.fields>;
export type Spot = Model<typeof spotSection.fields>;
export type ForecastHour = Model<typeof forecastHourSection.fields>;
export type Tide = Model<typeof tideSection.fields>;
export type Walk = Model<typeof walkSection.fields>;
