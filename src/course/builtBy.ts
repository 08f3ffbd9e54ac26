import type { Course, Obstacle } from './course.ts';
import { drawnSizes, equipment, equipmentBy, type EquipmentTable } from './equipment.ts';
import type { RuleBook } from './rules/book.ts';

/** What has been built by a table already: pieces and courses never change, so that each is built once. */
interface Built {
  readonly table: EquipmentTable;
  readonly pieces: WeakMap<Obstacle, Obstacle>;
  readonly courses: WeakMap<Course, Course>;
}

const tables = new WeakMap<RuleBook, Map<string, Built>>();

/**
 * A course as it stands when its equipment is built by a rule book: each piece with all its sizes, its own where it has
 * any, else the book's. To be drawn and measured, never to be stored. Without a book it is the course as it is.
 * @param category a height category of the book; absent: as the head of the course says
 */
export function builtBy(course: Course, book: RuleBook | undefined, category?: string): Course {
  if (!book) return course;
  const built = builtFor(book, category ?? categoryIn(course));
  const known = built.courses.get(course);
  if (known) return known;
  const made = { ...course, obstacles: course.obstacles.map((o) => pieceOf(built, o)) };
  built.courses.set(course, made);
  return made;
}

/** The sizes that a course's equipment is built to: its rule book's, else those of the worked one. */
export function equipmentOf(course: Course, book: RuleBook | undefined): EquipmentTable {
  return book ? builtFor(book, categoryIn(course)).table : equipment;
}

const categoryIn = (course: Course): string => course.head?.heightCategory.trim() ?? '';

function builtFor(book: RuleBook, category: string): Built {
  const byCategory = tables.get(book) ?? new Map<string, Built>();
  tables.set(book, byCategory);
  const built = byCategory.get(category) ?? {
    table: equipmentBy(book.equipment, category),
    pieces: new WeakMap<Obstacle, Obstacle>(),
    courses: new WeakMap<Course, Course>(),
  };
  byCategory.set(category, built);
  return built;
}

function pieceOf({ table, pieces }: Built, o: Obstacle): Obstacle {
  const known = pieces.get(o);
  if (known) return known;
  const { height } = o.sizes ?? {};
  const sizes = { ...drawnSizes(o.kind, o.sizes, table), ...(height === undefined ? {} : { height }) };
  const made = { ...o, sizes };
  pieces.set(o, made);
  return made;
}
