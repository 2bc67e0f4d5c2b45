import { angle, sweepAngle } from '../quantities/angle.ts';
import { aperture } from '../quantities/aperture.ts';
import { bearing } from '../quantities/bearing.ts';
import { coordinates } from '../quantities/coordinates.ts';
import { duration } from '../quantities/duration.ts';
import { lensChoice } from '../quantities/focal.ts';
import { distance, height, length } from '../quantities/length.ts';
import { metered } from '../quantities/metered.ts';
import { moment } from '../quantities/moment.ts';
import { sensitivity } from '../quantities/sensitivity.ts';
import { share } from '../quantities/share.ts';
import { shutter } from '../quantities/shutter.ts';
import { speed } from '../quantities/speed.ts';
import { exposureValue, stops } from '../quantities/stops.ts';
import { choice, count, identifier, text } from '../quantities/words.ts';
import { list, type Model, nested, reference, scalar, section } from './table.ts';

/** How the water, the sky or the people in it are meant to look. */
export const effects = [
  { value: 'frozen', doc: 'Every drop stands still.' },
  { value: 'textured', doc: 'Soft strands; the shape of the water stays.' },
  { value: 'silky', doc: 'The water flows together into smooth bands.' },
  { value: 'mist', doc: 'The water turns into a haze over the stones.' },
  { value: 'mirror', doc: 'Ripples vanish and the reflection comes out whole.' },
  { value: 'cloud streaks', doc: 'Clouds draw lines across the sky.' },
  { value: 'cleared of people', doc: 'Whoever walks through leaves no trace.' },
  { value: 'star points', doc: 'Stars stay points.' },
  { value: 'star trails', doc: 'Stars draw arcs.' },
] as const;

export type Effect = (typeof effects)[number]['value'];

export const waterSection = section('water', 'The water: what it does and how fast.', {
  kind: scalar(
    choice('kind of water', [
      { value: 'lake', doc: 'Standing water: a lake, a reservoir, a pond.' },
      { value: 'river', doc: 'Flowing without falling.' },
      { value: 'cascade', doc: 'Falling over steps.' },
      { value: 'waterfall', doc: 'Falling freely.' },
      { value: 'spillway', doc: 'Overflow of a dam. It can start without warning.' },
      { value: 'sea', doc: 'Waves on a coast.' },
    ]),
    'What kind of water it is. The usual shutter times depend on it.',
  ),
  state: scalar(
    choice('state of the water', [
      { value: 'calm', doc: 'Hardly moving.' },
      { value: 'running', doc: 'Flowing.' },
      { value: 'rippled', doc: 'Ruffled by wind.' },
      { value: 'rough', doc: 'Waves.' },
      { value: 'dry', doc: 'Not running.' },
      { value: 'frozen', doc: 'Ice.' },
    ]),
    'What it does.',
  ),
  level: scalar(
    choice('level', [
      { value: 'full', doc: 'Full.' },
      { value: 'half', doc: 'Half full.' },
      { value: 'low', doc: 'Low: mud and stones show.' },
    ]),
    'How high it stands.',
  ),
  speed: scalar(speed, 'How fast it flows across the view.'),
  distance: scalar(length, 'How far from the camera it flows.'),
});

export const subjectSection = section('subject', 'What the picture is of.', {
  name: scalar(text('name', 'A name for people.'), 'A name for people.'),
  at: scalar(coordinates, 'Where it stands.'),
  height: scalar(length, 'How high it is.'),
  elevation: scalar(height, 'Height of its foot above the sea.'),
  distance: scalar(distance, 'How far away it is, where there are no coordinates.'),
});

export const sceneSection = section('scene', 'How bright the parts of the scene are.', {
  sky: scalar(exposureValue, 'The meter on the sky, as EV at ISO 100.'),
  foreground: scalar(exposureValue, 'The meter on the foreground, as EV at ISO 100.'),
  range: scalar(stops, 'From the darkest part that shall show something to the brightest.'),
  horizon: scalar(
    choice('shape of the horizon', [
      { value: 'straight', doc: 'The sea or a plain.' },
      { value: 'broken', doc: 'Peaks, trees, buildings stand up into the sky.' },
    ]),
    'How the sky meets the land.',
  ),
  keep: scalar(stops, 'How much brighter the sky shall stay. One stop when left out.'),
});

export const bracketSection = section('bracket', 'Several exposures of the same picture.', {
  frames: scalar(count, 'How many exposures.', { required: true }),
  step: scalar(stops, 'From one to the next. One stop when left out.'),
});

export const shotSection = section('shot', 'A picture to take.', {
  id: scalar(identifier, 'The short name by which other lines refer to it.', { required: true }),
  name: scalar(text('name', 'A name for people.'), 'A name for people.'),
  effect: scalar(choice('effect', effects), 'How water, sky or people shall look.'),
  subject: nested(subjectSection, 'What the picture is of.'),
  facing: scalar(bearing, 'Where the lens points. Found from the subject when left out.'),
  tilt: scalar(angle, 'How far the lens points up, or down when negative. Level when left out.'),
  orientation: scalar(
    choice('orientation', [
      { value: 'landscape', doc: 'The long side lies.' },
      { value: 'portrait', doc: 'The long side stands.' },
    ]),
    'How the camera is held. Landscape when left out.',
  ),
  body: reference('body', 'The camera body. The first of the kit when left out.'),
  film: reference('film', 'The film in it.'),
  lens: scalar(lensChoice, 'The lens, and for a zoom the focal length: `wide @ 24 mm`.'),
  aperture: scalar(aperture, 'The aperture of the picture.'),
  iso: scalar(sensitivity, 'The speed of the picture. That of the film, else 100, when left out.'),
  metered: scalar(
    metered,
    'What the meter says without filters; at the aperture and speed of the picture unless it gives its own.',
  ),
  shutter: scalar(shutter, 'A shutter time that you want whatever the meter says, filters on.'),
  filters: list(reference('filter', '').kind, 'The filters on the lens.'),
  scene: nested(sceneSection, 'How bright the parts of the scene are.'),
  start: scalar(moment, 'When the first frame begins. When left out: after the shot before, or when ready.'),
  frames: scalar(count, 'How many frames.'),
  bracket: nested(bracketSection, 'Several exposures of each frame.'),
  gap: scalar(duration, 'Between one frame and the next.'),
  focus: scalar(length, 'The distance at which the lens is focused.'),
  nearest: scalar(length, 'The distance of the nearest thing that shall be sharp.'),
  sweep: scalar(sweepAngle, 'The angle that a panorama covers.'),
  overlap: scalar(share, 'How much of a panorama’s frame the next one repeats. 30 % when left out.'),
  water: nested(waterSection, 'The water in this picture, where it differs from the spot’s.'),
  note: scalar(text('note', 'Free text.'), 'Anything else worth writing down.'),
});

export type Shot = Model<typeof shotSection.fields>;
export type Water = Model<typeof waterSection.fields>;
