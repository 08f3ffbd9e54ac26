import type { Course } from '../course.ts';
import { choicesOf, type Sizes } from '../equipment.ts';
import type { Chosen } from './arrange.ts';

/** The chosen pieces with other sizes, as far as their kinds have them. `undefined` gives the table's size back. */
export function withSizes(
  course: Course,
  chosen: Chosen,
  part: { readonly [K in keyof Sizes]?: Sizes[K] | undefined },
): Course {
  const ids = new Set(chosen);
  return {
    ...course,
    obstacles: course.obstacles.map((o) => {
      if (!ids.has(o.id)) return o;
      const allowed = choicesOf(o.kind);
      const sizes: Record<string, unknown> = { ...o.sizes };
      for (const name of allowed) {
        if (!(name in part)) continue;
        if (part[name] === undefined) Reflect.deleteProperty(sizes, name);
        else sizes[name] = part[name];
      }
      const { sizes: _, ...rest } = o;
      return Object.keys(sizes).length === 0 ? rest : { ...rest, sizes: sizes as Sizes };
    }),
  };
}
