/**
 * Every colour and size of the program, in one place. The window reads them as CSS variables (see cssVariables),
 * canvases and the report take them from here. Contrast of text on its ground is held by tests/unit/look.
 */

/** Okabe and Ito (2008), "Color Universal Design": told apart with every common kind of colour blindness. */
export const data = {
  black: '#000000',
  orange: '#E69F00',
  sky: '#56B4E9',
  green: '#009E73',
  yellow: '#F0E442',
  blue: '#0072B2',
  vermilion: '#D55E00',
  purple: '#CC79A7',
} as const;

/**
 * From slow to fast, dark to light, told apart with every common kind of colour blindness (cividis; Nuñez, Anderton and
 * Renslow 2018, five of its steps, values from memory).
 */
export const speedShades = ['#00224E', '#434E6C', '#7D7C78', '#BCAE6C', '#FEE838'] as const;

/** Paper, for daylight. */
const paper = {
  ground: '#F7F4EC',
  raised: '#FFFDF8',
  sunken: '#ECE7DA',
  line: '#CFC7B5',
  lineStrong: '#847A67',
  text: '#2B2420',
  textSoft: '#5E5348',
  pine: '#1F4D3A',
  pineSoft: '#DCE8DF',
  onPine: '#FFFDF8',
  accent: '#B34018',
  accentSoft: '#F8E3D6',
  onAccent: '#FFFDF8',
  focus: '#0B5C8E',
  inTime: '#0B6B4B',
  tight: '#7A5200',
  late: '#8A3A66',
  open: '#5E5348',
} as const;

/** Dark, for looking at footage. */
const dark: Record<keyof typeof paper, string> = {
  ground: '#211D1A',
  raised: '#2B2623',
  sunken: '#191614',
  line: '#463E38',
  lineStrong: '#9A8E80',
  text: '#F1EBDF',
  textSoft: '#C3B8A8',
  pine: '#8CC3A6',
  pineSoft: '#27382F',
  onPine: '#16211B',
  accent: '#F08A5D',
  accentSoft: '#43291D',
  onAccent: '#241208',
  focus: '#7CC4F2',
  inTime: '#7FCFAE',
  tight: '#E9B949',
  late: '#E2A0C3',
  open: '#C3B8A8',
};

export const themes = { paper, dark } as const;
export type ThemeName = keyof typeof themes;
export type ColourName = keyof typeof paper;

/** Around the picture, in both themes, so that colours read true. */
export const stage = { surround: '#2A2A2A', text: '#E8E6E1', textSoft: '#B9B6B0' } as const;

/** Inks of the pen on a still. */
export const inks = { persimmon: '#FF7A3D', chalk: '#FFFDF8', sky: data.sky, sun: data.yellow } as const;

/** Paper in a printer: what is left white costs no ink. */
export const sheetOfPaper = '#FFFFFF';

/** Spacing, 4 px scale; type sizes; one radius. Pixels at 100 %. */
export const space = { s1: 4, s2: 8, s3: 12, s4: 16, s5: 24, s6: 32 } as const;
export const type = { small: 13, base: 15, large: 18, title: 24 } as const;
export const radius = 6;
export const target = 28;
export const font = "'Source Sans 3 Variable', 'Source Sans 3', 'Noto Sans', system-ui, sans-serif";
/** Milliseconds of the longest movement; 0 where the system asks for none. */
export const movement = 120;

/** The CSS custom properties of a theme, as the text of one declaration block. */
export function cssVariables(theme: ThemeName): string {
  const lines: string[] = [];
  const put = (name: string, value: string): void => void lines.push(`--${name}: ${value};`);
  for (const [name, value] of Object.entries(themes[theme])) put(kebab(name), value);
  for (const [name, value] of Object.entries(data)) put(`data-${name}`, value);
  speedShades.forEach((value, i) => {
    put(`speed-${i}`, value);
  });
  for (const [name, value] of Object.entries(stage)) put(`stage-${kebab(name)}`, value);
  for (const [name, value] of Object.entries(inks)) put(`ink-${name}`, value);
  for (const [name, value] of Object.entries(space)) put(name, `${value / 16}rem`);
  for (const [name, value] of Object.entries(type)) put(`type-${name}`, `${value / 16}rem`);
  put('radius', `${radius}px`);
  put('target', `${target / 16}rem`);
  put('font', font);
  put('movement', `${movement}ms`);
  return lines.join('\n');
}

function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);
}
