const kit = /\.shootkit\.ya?ml$/i;
const kitOrPlan = /\.(shootplan|shootkit)\.ya?ml$/i;

/** Plans and kits, as a glob for watchers. */
export const planFiles = '**/*.{shootplan,shootkit}.{yaml,yml}';

/** Whether a path or a URI names a kit. */
export function isKit(path: string): boolean {
  return kit.test(path);
}

/** Whether a path or a URI names a plan or a kit. */
export function isKitOrPlan(path: string): boolean {
  return kitOrPlan.test(path);
}
