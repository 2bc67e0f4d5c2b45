import type { Sensor } from './view.ts';

/**
 * Depth of field by thin-lens geometry. Distances in metres from the front principal plane; focal length and circle of
 * confusion in millimetres. Source: S. F. Ray, Applied Photographic Optics.
 */

export interface DepthInput {
  readonly focal: number;
  readonly fNumber: number;
  /** The largest blur that still counts as sharp, in millimetres. */
  readonly circle: number;
}

/**
 * The circle of confusion of a frame in millimetres: 0.030 for 36 × 24 mm (diagonal / 1442), in proportion for others.
 * The figure is custom: an eye before a print of 25 cm. Large prints and close looks ask for less.
 */
export function circleOfConfusion({ width, height }: Sensor): number {
  return (0.03 * Math.hypot(width, height)) / Math.hypot(36, 24);
}

/** H = f²/(N·c) + f: focused there, everything from half of it to infinity is sharp. */
export function hyperfocal(input: DepthInput): number {
  return (input.focal ** 2 / (input.fNumber * input.circle) + input.focal) / 1000;
}

export interface DepthOfField {
  readonly nearMetres: number;
  /** Infinity where all the distance is sharp. */
  readonly farMetres: number;
}

/** near = s·(H − f)/(H + s − 2f), far = s·(H − f)/(H − s), infinite from s = H. Focusing at infinity is allowed. */
export function depthOfField(input: DepthInput, focusMetres: number): DepthOfField {
  const h = hyperfocal(input);
  const f = input.focal / 1000;
  if (focusMetres === Infinity) return { nearMetres: h - f, farMetres: Infinity };
  const nearMetres = (focusMetres * (h - f)) / (h + focusMetres - 2 * f);
  const farMetres = focusMetres >= h ? Infinity : (focusMetres * (h - f)) / (h - focusMetres);
  return { nearMetres, farMetres };
}

/** The f-number at which everything from near to far is just sharp, and where to focus for it. */
export interface FocusForDepth {
  readonly fNumber: number;
  readonly focusMetres: number;
}

/**
 * Where to focus, and the widest aperture, for depth from near to far (which may be Infinity): both limits solved for s
 * and H. The focus is the harmonic mean of the limits, 2·near·far/(near + far).
 */
export function focusForDepth(
  lens: { readonly focal: number; readonly circle: number },
  nearMetres: number,
  farMetres: number,
): FocusForDepth {
  const f = lens.focal / 1000;
  const near = 1 / nearMetres;
  const far = 1 / farMetres;
  const focusMetres = 2 / (near + far);
  // 1/near − 1/far = 2·(s − f)/(s·(H − f)), from the two formulas above; (s − f)/s is written without the infinite s.
  const excess = (2 * (1 - (f * (near + far)) / 2)) / (near - far);
  return { fNumber: lens.focal ** 2 / (lens.circle * excess * 1000), focusMetres };
}

/** A stack of more frames than this is not worked out. */
const mostFrames = 200;

/**
 * The distances to focus at, nearest first, so that the depths of the frames join from near to far without a gap. Each
 * frame's depth begins `overlap` (a share of its own depth in 1/m) before the last one's ends. Null when the nearest
 * distance is too close for the lens or the stack would not end.
 */
export function focusStack(
  input: DepthInput,
  nearMetres: number,
  farMetres: number,
  overlap = 0.2,
): readonly number[] | null {
  const h = hyperfocal(input);
  const f = input.focal / 1000;
  if (nearMetres <= 2 * f || overlap < 0 || overlap >= 1) return null;
  const frames: number[] = [];
  let near = nearMetres;
  while (frames.length < mostFrames) {
    const focus = near >= h - f ? Infinity : (near * (h - 2 * f)) / (h - f - near);
    frames.push(focus);
    const reach = depthOfField(input, focus).farMetres;
    if (reach >= farMetres * (1 - 1e-9)) return frames;
    const next = 1 / (1 / reach + overlap * (1 / near - 1 / reach));
    if (next <= near) return null;
    near = next;
  }
  return null;
}
