import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { panorama, panoramaSpan } from '../../server/optics/panorama.ts';
import { angleBetween } from '../../server/optics/sphere.ts';
import {
  type Camera,
  directionInFrame,
  fieldOfView,
  horizonInFrame,
  pixelPitch,
  pixelsAcross,
  projectToFrame,
  subjectInFrame,
  turned,
} from '../../server/optics/view.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('fov', 7, (input) => {
  const [width = 0, height = 0] = (input.sensor_mm as unknown[]).map(numberOf);
  const field = fieldOfView(numberOf(input.focal_mm), { width, height });
  return {
    horizontal_deg: field.horizontalDegrees,
    vertical_deg: field.verticalDegrees,
    diagonal_deg: field.diagonalDegrees,
  };
});

const fullFrame = { width: 36, height: 24 };
const level: Camera = { facing: 118, tilt: 0, focal: 24, sensor: fullFrame };

describe('a projection into the frame', () => {
  it('puts what stands at half the angle of view on the edge', () => {
    const { horizontalDegrees, verticalDegrees } = fieldOfView(24, fullFrame);
    const right = projectToFrame({ azimuth: 118 + horizontalDegrees / 2, altitude: 0 }, level);
    expect(right.point?.x).toBeCloseTo(0.5, 12);
    expect(right.point?.y).toBeCloseTo(0, 12);
    const top = projectToFrame({ azimuth: 118, altitude: verticalDegrees / 2 }, level);
    expect(top.point?.x).toBeCloseTo(0, 12);
    expect(top.point?.y).toBeCloseTo(0.5, 12);
  });

  it('tells inside from outside, across north too', () => {
    const north = { ...level, facing: 358 };
    expect(projectToFrame({ azimuth: 10, altitude: 5 }, north).inFrame).toBe(true);
    expect(projectToFrame({ azimuth: 40, altitude: 5 }, north).inFrame).toBe(false);
    expect(projectToFrame({ azimuth: 358, altitude: 30 }, north).inFrame).toBe(false);
  });

  it('has no image of what stands beside or behind the camera', () => {
    expect(projectToFrame({ azimuth: 118 + 90, altitude: 0 }, level)).toMatchObject({
      point: null,
      inFrame: false,
    });
    expect(projectToFrame({ azimuth: 298, altitude: 0 }, level)).toEqual({
      point: null,
      inFrame: false,
      angleFromAxisDegrees: 180,
    });
  });

  it('comes back to the direction it came from, at the angle that its place says', () => {
    const share = fc.double({ min: -1, max: 1, noNaN: true });
    const tilt = fc.double({ min: -80, max: 80, noNaN: true });
    const focal = fc.double({ min: 8, max: 400, noNaN: true });
    fc.assert(
      fc.property(
        share,
        share,
        tilt,
        focal,
        fc.double({ min: 0, max: 360, noNaN: true }),
        (x, y, up, length, facing) => {
          const camera: Camera = { facing, tilt: up, focal: length, sensor: fullFrame };
          const direction = directionInFrame({ x, y }, camera);
          const { point, angleFromAxisDegrees } = projectToFrame(direction, camera);
          expect(point?.x).toBeCloseTo(x, 9);
          expect(point?.y).toBeCloseTo(y, 9);
          // Central projection: the distance from the middle of the sensor is f·tan of the angle from the axis.
          const millimetres = length * Math.tan((angleFromAxisDegrees * Math.PI) / 180);
          expect(millimetres).toBeCloseTo(Math.hypot(x * 36, y * 24), 6);
        },
      ),
    );
  });

  it('has the horizon in the middle when level and above it when tilted down', () => {
    expect(horizonInFrame(level)).toBeCloseTo(0, 12);
    const down = { ...level, tilt: -10 };
    expect(horizonInFrame(down)).toBeCloseTo((24 * Math.tan(Math.PI / 18)) / 24, 12);
    expect(directionInFrame({ x: 0, y: horizonInFrame(down) }, down).altitude).toBeCloseTo(0, 9);
    expect(horizonInFrame({ ...level, tilt: -90 })).toBe(Number.POSITIVE_INFINITY);
  });
});

it('the angle between directions keeps its digits at 0° and 180°', () => {
  const direction = { azimuth: 33, altitude: 12 };
  expect(angleBetween(direction, direction)).toBe(0);
  expect(angleBetween(direction, { azimuth: 213, altitude: -12 })).toBeCloseTo(180, 9);
  expect(angleBetween(direction, { azimuth: 33, altitude: 12.000001 })).toBeCloseTo(1e-6, 12);
});

describe('sizes in the frame', () => {
  it('follow similar triangles', () => {
    // A tower of 34 m at 340 m is a tenth of the focal length high.
    const tower = subjectInFrame({ sizeMetres: 34, distanceMetres: 340 }, 24, {
      millimetres: 24,
      pixels: 5504,
    });
    expect(tower.millimetres).toBeCloseTo(2.4, 12);
    expect(tower.share).toBeCloseTo(0.1, 12);
    expect(tower.pixels).toBeCloseTo(550.4, 9);
    expect(tower.angleDegrees).toBeCloseTo(5.725, 3);
  });

  it('draw the sun about a hundredth of the focal length wide', () => {
    // The sun's mean diameter is 0.533° (from memory): 1 / 107.5 of the focal length.
    const pitch = pixelPitch(36, 8256);
    expect(pitch).toBeCloseTo(4.36, 2);
    expect((pixelsAcross(0.533, 200, pitch) * pitch) / 1000).toBeCloseTo(200 / 107.5, 2);
  });

  it('cover the whole width at the angle of view', () => {
    const { horizontalDegrees } = fieldOfView(24, fullFrame);
    expect(pixelsAcross(horizontalDegrees, 24, pixelPitch(36, 8256))).toBeCloseTo(8256, 6);
  });

  it('turn with the camera', () => {
    expect(turned(fullFrame)).toEqual({ width: 24, height: 36 });
  });
});

describe('a panorama', () => {
  const camera = { focal: 50, sensor: fullFrame };

  it('is one frame when the view is wide enough', () => {
    expect(panorama(camera, { horizontalDegrees: 39 })).toMatchObject({ columns: 1, rows: 1, frames: 1 });
  });

  it('covers its span, and would not with a frame less', () => {
    const field = fieldOfView(50, fullFrame).horizontalDegrees;
    for (const horizontalDegrees of [40, 90, 120, 180, 270]) {
      const { columns, stepDegrees } = panorama(camera, { horizontalDegrees });
      expect(panoramaSpan(columns, field)).toBeGreaterThanOrEqual(horizontalDegrees - 1e-9);
      expect(panoramaSpan(columns - 1, field)).toBeLessThan(horizontalDegrees);
      expect(field + (columns - 1) * stepDegrees).toBeCloseTo(horizontalDegrees, 9);
      expect(stepDegrees).toBeLessThanOrEqual(field * 0.7 + 1e-9);
    }
  });

  it('closes a full circle and counts rows', () => {
    // 39.6° with 30 % overlap steps by 27.7°: 13 frames.
    expect(panorama(camera, { horizontalDegrees: 360 })).toMatchObject({
      columns: 13,
      stepDegrees: 360 / 13,
    });
    // 27.0° high, stepping by 18.9°: 60° need 3 rows.
    expect(panorama(camera, { horizontalDegrees: 90, verticalDegrees: 60 })).toMatchObject({
      columns: 3,
      rows: 3,
      frames: 9,
    });
  });
});
