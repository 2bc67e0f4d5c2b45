/** A type whose keys that may be undefined may instead be absent. */
export type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The object without the keys whose value is undefined: absent, as the model wants what is not known. */
export function present<T extends object>(object: T): Present<T> {
  const known: { [key: string]: unknown } = {};
  for (const key in object) {
    const value = object[key];
    if (value !== undefined) known[key] = value;
  }
  return known as Present<T>;
}
