import { apertureRange } from '../quantities/aperture.ts';
import { bulb } from '../quantities/bulb.ts';
import { duration } from '../quantities/duration.ts';
import { focalLength } from '../quantities/focal.ts';
import { length, pixelSize, sensorSize, threadSize } from '../quantities/length.ts';
import { sensitivity } from '../quantities/sensitivity.ts';
import { shutter } from '../quantities/shutter.ts';
import { shutterRange } from '../quantities/shutterRange.ts';
import { stopStep, stops } from '../quantities/stops.ts';
import { filterStrength } from '../quantities/strength.ts';
import { choice, count, flag, identifier, plainNumber, text } from '../quantities/words.ts';
import { field, list, type Model, nested, scalar, section } from './table.ts';

const name = scalar(text('name', 'A name for people.'), 'A name for people; the id stays short.');
const note = scalar(text('note', 'Free text.'), 'Anything else worth writing down.');

const exponent = plainNumber({
  name: 'reciprocity exponent',
  documentation:
    'The exponent p of the power law t^p, from the film’s data sheet: 1.0 is no failure.\n\n`1.31`.',
  examples: ['1.31'],
  min: 1,
  max: 3,
});

export const reciprocityRowSection = section('reciprocity row', 'One line of a film’s data sheet.', {
  metered: scalar(shutter, 'The time that the meter gives, filters included.', { required: true }),
  corrected: scalar(shutter, 'The time to set instead.', { required: true }),
});

export const reciprocitySection = section('reciprocity', 'How a film loses speed in long exposures.', {
  exponent: scalar(exponent, 'The exponent p in: corrected time = metered time^p, from the data sheet.'),
  beyond: scalar(shutter, 'The time from which the film needs correction. One second when left out.'),
  table: list(
    { shape: 'section', section: reciprocityRowSection },
    'The lines of the data sheet instead of an exponent; between them the tool interpolates.',
  ),
});

export const bodySection = section('body', 'A camera body: what its dial and its sensor can do.', {
  id: scalar(identifier, 'The short name by which shots refer to it.', { required: true }),
  name,
  sensor: scalar(sensorSize, 'Width and height of the sensor or the film frame.'),
  pixels: scalar(pixelSize, 'Width and height of the picture in pixels.'),
  shutter: scalar(shutterRange, 'The shutter times on the dial, shortest and longest.'),
  dial: scalar(stopStep, 'The steps in which dials move. A third of a stop when left out.'),
  bulb: scalar(bulb, 'Whether the shutter can be held open beyond the dial, and for how long.'),
  range: scalar(stops, 'The usable range of the sensor or film, from clipped highlights to noise.'),
  finder: scalar(
    choice('finder', [
      { value: 'electronic', doc: 'A screen: the sun in it can still harm sensor and shutter.' },
      { value: 'optical', doc: 'A mirror or a ground glass: the sun in it harms the eye.' },
      { value: 'none', doc: 'No finder to look through.' },
    ]),
    'How the picture is seen before it is taken. It decides how dangerous the sun in the frame is.',
  ),
  'noise-reduction': scalar(
    flag,
    'Whether the body takes a dark frame after each long exposure, which doubles the time a frame takes.',
  ),
  battery: scalar(duration, 'How long one charge holds the shutter open.'),
  film: scalar(flag, 'Whether the body takes film; then shots name the film in it.'),
  note,
});

export const filmSection = section('film', 'A film, its speed and its reciprocity failure.', {
  id: scalar(identifier, 'The short name by which shots refer to it.', { required: true }),
  name,
  iso: scalar(sensitivity, 'The speed at which it is exposed.', { required: true }),
  reciprocity: nested(reciprocitySection, 'How it loses speed in long exposures.'),
  note,
});

export const lensSection = section('lens', 'A lens: focal length, apertures and filter thread.', {
  id: scalar(identifier, 'The short name by which shots refer to it.', { required: true }),
  name,
  focal: scalar(focalLength, 'Focal length, or both ends of a zoom.', { required: true }),
  aperture: scalar(apertureRange, 'The widest and the smallest aperture.'),
  thread: scalar(threadSize, 'Diameter of the filter thread.'),
  closest: scalar(length, 'The closest distance at which it focuses.'),
  note,
});

export const filterSection = section('filter', 'A filter: what is engraved on it and what it really takes.', {
  id: scalar(identifier, 'The short name by which shots refer to it.', { required: true }),
  name,
  kind: scalar(
    choice('kind of filter', [
      { value: 'neutral density', doc: 'Takes light evenly over the whole frame.' },
      { value: 'graduated', doc: 'Takes light from one side of the frame, usually the sky.' },
      { value: 'polarizer', doc: 'Takes polarized light: reflections and part of the sky.' },
      { value: 'colour', doc: 'Changes colour or contrast, or only protects the lens.' },
    ]),
    'What it does.',
    { required: true },
  ),
  strength: scalar(filterStrength, 'What is engraved on it: stops, optical density or factor.'),
  measured: scalar(stops, 'What you measured it to take. It goes before the label.'),
  loss: scalar(
    stops,
    'What a polarizer or a colour filter takes from everything. A polarizer: 1.5 stops when left out.',
  ),
  edge: scalar(
    choice('edge of a graduated filter', [
      { value: 'soft', doc: 'A wide transition, for horizons that are broken.' },
      { value: 'medium', doc: 'Between soft and hard.' },
      { value: 'hard', doc: 'A narrow transition, for straight horizons.' },
      { value: 'reverse', doc: 'Darkest at the horizon, for a sun that stands on it.' },
    ]),
    'How wide the transition of a graduated filter is.',
  ),
  thread: scalar(threadSize, 'Diameter of its screw ring.'),
  slot: scalar(threadSize, 'Width of a square filter that goes into a holder.'),
  note,
});

export const holderSection = section('holder', 'A holder for square filters.', {
  slots: scalar(count, 'How many filters it takes at once.'),
  slot: scalar(threadSize, 'Width of the filters it takes.'),
  rings: list({ shape: 'scalar', quantity: threadSize }, 'Threads for which there is an adapter ring.'),
});

export const tripodSection = section('tripod', 'What the camera stands on.', {
  height: scalar(length, 'Height of the camera with the legs full out.'),
  note,
});

export const kitFields = {
  bodies: list(
    { shape: 'section', section: bodySection },
    'Camera bodies. The first is used where a shot names none.',
  ),
  film: list({ shape: 'section', section: filmSection }, 'Films in the bag.'),
  lenses: list({ shape: 'section', section: lensSection }, 'Lenses in the bag.'),
  filters: list(
    { shape: 'section', section: filterSection },
    'Filters in the bag, each with its label and, if known, its measured strength.',
  ),
  holder: nested(holderSection, 'The holder for square filters.'),
  tripod: nested(tripodSection, 'The tripod.'),
  carried: list(
    {
      shape: 'scalar',
      quantity: text('thing carried', 'A thing in the bag.', ['remote release', 'headlamp', 'spare battery']),
    },
    'What else is in the bag: `remote release`, `headlamp`, `spare battery`.',
  ),
  note,
} as const;

/** A kit inside a plan. */
export const inlineKitSection = section('inline kit', 'Equipment written into the plan itself.', kitFields);

/** A kit file. */
export const kitSection = section('kit', 'A bag of equipment that plans share.', {
  kit: field(
    { shape: 'scalar', quantity: text('name of the kit', 'What the bag is called.') },
    'What the bag is called.',
    {
      required: true,
    },
  ),
  ...kitFields,
});

export type Body = Model<typeof bodySection.fields>;
export type Film = Model<typeof filmSection.fields>;
export type Lens = Model<typeof lensSection.fields>;
export type Filter = Model<typeof filterSection.fields>;
export type Holder = Model<typeof holderSection.fields>;
/** Equipment, from a file of its own or from the plan. */
export type Kit = Model<typeof inlineKitSection.fields>;
