import { RuleBook } from './book.ts';
import { fciCourse, fciEquipment } from './fci2023Course.ts';
import { fciScoring, fciTimes } from './fci2023Runs.ts';
import { singapore, various } from './fciSources.ts';

/**
 * FCI agility, edition of 1 January 2023, as far as it was found in texts that could be read. The regulations'
 * own numbered sections were not among them, so no section is named, and each entry says whose text it is after.
 */
export const fci2023: RuleBook = RuleBook.parse({
  format: 'walkback.rules',
  version: 1,
  id: 'fci-2023',
  name: 'FCI agility, 2023',
  about:
    'After texts of national bodies and others; the regulations themselves could not be read. Each entry says how well it is known. The regulations and the judge go before it.',
  categories: {
    value: [
      { id: 'S', name: 'Small', from: 0, below: 35 },
      { id: 'M', name: 'Medium', from: 35, below: 43 },
      { id: 'I', name: 'Intermediate', from: 43, below: 48 },
      { id: 'L', name: 'Large', from: 48, below: null },
    ],
    source: singapore,
    status: 'seen',
  },
  bars: {
    value: [
      { category: 'S', least: 25, most: 30 },
      { category: 'M', least: 35, most: 40 },
      { category: 'I', least: 45, most: 50 },
      { category: 'L', least: 55, most: 60 },
    ],
    source: various.fourHeights,
    status: 'seen',
    remark: 'The same ranges are remembered of the regulations of 2023, which were not read.',
  },
  course: fciCourse,
  times: fciTimes,
  equipment: fciEquipment,
  scoring: fciScoring,
});
