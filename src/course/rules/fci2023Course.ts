import type { RuleBookInput } from './book.ts';
import { changes2012, finland, remembered2018, spain, various } from './fciSources.ts';

const only = (value: number) => ({ least: value, most: value });

export const fciCourse: NonNullable<RuleBookInput['course']> = {
  obstacles: {
    value: { least: 15, most: 22 },
    source: finland,
    status: 'seen',
    remark: 'Finland is a member of the FCI. The most, 22, stands also in the FCI changes of 2012.',
  },
  hurdles: {
    value: { least: 7, kinds: ['barJump', 'spread'] },
    source: changes2012,
    status: 'seen',
    remark: 'Single and double hurdles, as of 2012.',
  },
  spacing: {
    value: {
      measured: 'ends',
      byCategory: [
        { category: 'S', least: 4, most: 7 },
        { category: 'M', least: 5, most: 7 },
        { category: 'I', least: 5, most: 7 },
        { category: 'L', least: 5, most: 7 },
      ],
    },
    source: changes2012,
    status: 'seen',
    remark:
      'As of 2012: small, and all others; the intermediate category came later. How it is measured was not seen: read here as straight from where one obstacle ends to where the next begins.',
  },
  ring: {
    value: { width: 24, length: 40 },
    source: changes2012,
    status: 'seen',
    remark: 'As of 2012; taken as the least ring.',
  },
  area: {
    value: { width: 20, length: 40 },
    source: changes2012,
    status: 'seen',
    remark: 'As of 2012: the course within 20 by 40 m.',
  },
  length: { value: { least: 100, most: 220 }, source: remembered2018, status: 'memory' },
  lengthMeasured: {
    value: 'wheelPath',
    source: spain,
    status: 'seen',
    remark:
      'Practice of a member of the FCI: along the path most dogs are expected to take. Other bodies measure straight from centre to centre; the two lengths differ.',
  },
};

export const fciEquipment = {
  barJump: {
    barLength: { value: { least: 120, most: 150 }, source: changes2012, status: 'seen' },
    barDiameter: {
      value: { least: 3, most: 5 },
      source: changes2012,
      status: 'seen',
      remark: 'Championships: 4 to 5 cm.',
    },
    wingWidth: { value: { least: 40, most: 60 }, source: changes2012, status: 'seen' },
    wingHeight: { value: only(100), source: changes2012, status: 'seen' },
    wingFilled: { value: only(75), source: changes2012, status: 'seen' },
  },
  spread: {
    heightStep: { value: { least: 15, most: 25 }, source: various.older, status: 'seen' },
    backBarLonger: { value: only(10), source: changes2012, status: 'seen' },
    depth: {
      value: [
        { category: 'S', least: 0, most: 30 },
        { category: 'M', least: 0, most: 40 },
        { category: 'L', least: 0, most: 55 },
      ],
      source: various.older,
      status: 'seen',
      remark: 'The most, before there was an intermediate category.',
    },
  },
  wall: {
    thickness: { value: only(20), source: various.older, status: 'seen', remark: 'About.' },
  },
  tyre: {
    aperture: { value: { least: 45, most: 60 }, source: various.equipment, status: 'seen' },
    centreHeight: {
      value: [
        { category: 'S', ...only(55) },
        { category: 'M', ...only(55) },
        { category: 'L', ...only(80) },
      ],
      source: various.equipment,
      status: 'seen',
      remark: 'Nothing was found for the intermediate category.',
    },
  },
  longJump: {
    length: {
      value: [
        { category: 'S', least: 40, most: 50 },
        { category: 'M', least: 70, most: 90 },
        { category: 'L', least: 120, most: 150 },
      ],
      source: various.longJump,
      status: 'seen',
      remark: 'Nothing was found for the intermediate category.',
    },
    units: {
      value: [
        { category: 'S', ...only(2) },
        { category: 'M', least: 3, most: 4 },
        { category: 'L', least: 4, most: 5 },
      ],
      source: various.longJump,
      status: 'seen',
      remark: 'Nothing was found for the intermediate category.',
    },
    frontUnitHeight: { value: only(15), source: various.longJump, status: 'seen' },
    backUnitHeight: { value: only(28), source: various.longJump, status: 'seen' },
    unitWidth: { value: only(120), source: various.longJump, status: 'seen' },
    unitDepth: { value: only(15), source: various.longJump, status: 'seen' },
  },
  tunnel: {
    diameter: { value: only(60), source: various.tunnelWidth, status: 'seen' },
    length: { value: { least: 300, most: 600 }, source: various.tunnelLength, status: 'seen' },
  },
  weavePoles: {
    poles: { value: only(12), source: various.poles, status: 'seen' },
    spacing: { value: only(60), source: remembered2018, status: 'memory' },
    poleHeight: { value: { least: 100, most: 120 }, source: remembered2018, status: 'memory' },
    poleDiameter: { value: { least: 3, most: 5 }, source: remembered2018, status: 'memory' },
  },
  aFrame: {
    apex: { value: only(170), source: various.equipment, status: 'seen', remark: 'All categories.' },
    rampLength: { value: { least: 265, most: 275 }, source: various.equipment, status: 'seen' },
    widthAtTop: {
      value: { least: 90, most: 115 },
      source: various.equipment,
      status: 'seen',
      remark: 'At least 90 cm; no wider than at the base.',
    },
    widthAtBase: { value: only(115), source: various.equipment, status: 'seen' },
    contactLength: {
      value: only(106),
      source: various.olderFrench,
      status: 'seen',
      remark: 'Along the ramp.',
    },
  },
  dogWalk: {
    plankLength: { value: { least: 360, most: 380 }, source: various.equipment2012, status: 'seen' },
    plankWidth: { value: only(30), source: various.equipment2012, status: 'seen' },
    height: { value: { least: 120, most: 130 }, source: various.equipment2012, status: 'seen' },
    contactLength: { value: only(90), source: various.equipment, status: 'seen' },
  },
  seeSaw: {
    plankLength: { value: { least: 360, most: 380 }, source: remembered2018, status: 'memory' },
    pivotHeight: { value: only(60), source: remembered2018, status: 'memory' },
    contactLength: { value: only(90), source: various.olderFrench, status: 'seen' },
  },
} satisfies NonNullable<RuleBookInput['equipment']>;
