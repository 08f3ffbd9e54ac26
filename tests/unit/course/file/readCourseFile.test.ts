import { describe, expect, it, test } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import { courseFileOf, writeCourseFile } from '../../../../src/course/file/courseFile.ts';
import { readCourseFile } from '../../../../src/course/file/readCourseFile.ts';
import { planDrawing } from '../../../../src/report/courseSheet/planSheet.ts';
import { courseSvg } from '../../../../src/report/courseSheet/svg.ts';
import { demoCourse, fullCourse } from './demoCourse.ts';

const svgOf = (course: Course): string => {
  const drawn = planDrawing(course, 'metres');
  if (!drawn.ok) throw new Error(drawn.why);
  return courseSvg(drawn.drawing, course);
};

const told = (text: string): string => {
  const reading = readCourseFile(text);
  if (reading.ok) throw new Error('it was taken');
  return reading.problems.join('\n');
};

describe('a course file', () => {
  it.each([
    ['the demo’s course', demoCourse()],
    ['a course with everything', fullCourse()],
  ])('gives %s back whole, from JSON and from the drawing', (_name, course) => {
    expect(readCourseFile(writeCourseFile(course))).toEqual({ ok: true, course });
    expect(readCourseFile(`\uFEFF${writeCourseFile(course)}`)).toEqual({ ok: true, course });
    expect(readCourseFile(svgOf(course))).toEqual({ ok: true, course });
  });

  it('carries a form and a version, and tells what another one is', () => {
    const file = courseFileOf(demoCourse());
    expect(file).toMatchObject({ format: 'walkback.course', version: 1 });
    expect(told(JSON.stringify({ ...file, version: 2 }))).toMatch(
      /has version 2; this program reads version 1\. Update/,
    );
    expect(told(JSON.stringify({ ...file, version: '1' }))).toMatch(/names no version/);
    expect(told(JSON.stringify({ ...file, format: 'walkback.review' }))).toMatch(/not a course file/);
    expect(told(JSON.stringify([file]))).toMatch(/not a course file/);
  });

  test.each<[string, string, RegExp]>([
    ['nothing', ' \n ', /empty/],
    ['no JSON', '{"format":', /not JSON/],
    ['a number', '3', /not a course file/],
    ['null', 'null', /not a course file/],
    ['brackets without end', '['.repeat(100_000), /not JSON/],
  ])('%s is told', (_name, text, message) => {
    expect(told(text)).toMatch(message);
  });

  it('tells of ten thousand obstacles by their number, once', () => {
    const course = demoCourse();
    const one = course.obstacles[0];
    const many = {
      ...course,
      obstacles: Array.from({ length: 10_000 }, (_, i) => ({ ...one, id: `o${i}` })),
    };
    expect(told(JSON.stringify({ ...courseFileOf(course), course: many }))).toMatch(
      /can have 1000 obstacles at the most/,
    );
  });

  it('tells of what does not fit together and of keys that mean something to JavaScript', () => {
    const course = demoCourse();
    expect(told(writeCourseFile({ ...course, steps: course.steps.slice(1) }))).toMatch(/number 1 is missing/);
    const hostile = writeCourseFile(course).replace(
      '"course": {',
      '"course": {"__proto__": {"polluted": true},',
    );
    expect(told(hostile)).toMatch(/Unrecognized key/);
    expect(told(writeCourseFile(course).replace('"x":14', '"x":1e999'))).toMatch(/obstacles\.0/);
    expect(Object.prototype).not.toHaveProperty('polluted');
  });

  it('cuts a list of mistakes short', () => {
    const course = demoCourse();
    const bad = { ...course, obstacles: course.obstacles.map((o) => ({ ...o, kind: 'moat' })) };
    const message = told(JSON.stringify({ ...courseFileOf(course), course: bad }));
    expect(message.split('\n')).toHaveLength(6);
    expect(message).toMatch(/And 11 more problems/);
  });
});

describe('a hostile drawing', () => {
  const json = JSON.stringify(courseFileOf(demoCourse())).replace(/</g, '&lt;');
  const wrap = (inside: string, before = ''): string =>
    `<?xml version="1.0"?>${before}<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`;
  const carried = `<metadata><course xmlns="urn:walkback:course">${json}</course></metadata>`;

  it('is read for its course alone, whatever else it holds', () => {
    const loud = `<script>throw 1</script><style>@import url(http://127.0.0.1/x)</style><image href="file:///etc/passwd"/><foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="http://127.0.0.1/"/></foreignObject><g onload="alert(1)"/><?php echo 1 ?><!-- <metadata/> -->`;
    expect(readCourseFile(wrap(loud + carried + loud))).toEqual({ ok: true, course: demoCourse() });
    expect(
      readCourseFile(
        wrap(carried.replace(json, `<![CDATA[${JSON.stringify(courseFileOf(demoCourse()))}]]>`)),
      ),
    ).toEqual({ ok: true, course: demoCourse() });
  });

  test.each<[string, string, RegExp]>([
    [
      'entities that grow',
      wrap(
        '<metadata>&d;</metadata>',
        '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;"><!ENTITY d "&c;&c;&c;&c;">]>',
      ),
      /document type/,
    ],
    [
      'an entity from outside',
      wrap(`<metadata>&x;</metadata>`, '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>'),
      /document type/,
    ],
    ['a document type of any kind', wrap(carried, '<!DOCTYPE svg>'), /document type/],
    ['an entity that nobody made', wrap('<metadata>&lol;</metadata>'), /not well-formed/],
    ['no end', wrap(carried).slice(0, -20), /not well-formed/],
    ['the same attribute twice', wrap('<g a="1" a="2"/>'), /not well-formed/],
    ['tags that cross', wrap('<g><a></g></a>'), /not well-formed/],
    ['a hundred thousand levels', wrap('<g>'.repeat(100_000)), /nested too deeply/],
    ['another kind of XML', '<html><body/></html>', /neither a course file nor an SVG/],
    ['a drawing of no namespace', '<svg><metadata/></svg>', /neither a course file nor an SVG/],
    [
      'a drawing of another program',
      wrap('<metadata>hello</metadata><rect width="3" height="4"/>'),
      /carries no course/,
    ],
    ['a course outside of the metadata', wrap(carried.replace(/<\/?metadata>/g, '')), /carries no course/],
    ['a course deeper inside', wrap(`<g>${carried}</g>`), /carries no course/],
    [
      'a course of no namespace',
      wrap(carried.replace(' xmlns="urn:walkback:course"', '')),
      /carries no course/,
    ],
    [
      'markup in place of data',
      wrap('<metadata><course xmlns="urn:walkback:course"><b/></course></metadata>'),
      /carries no course/,
    ],
  ])('%s', (_name, svg, message) => {
    expect(told(svg)).toMatch(message);
  });

  it('is refused by its size before it is read', () => {
    expect(told(wrap(' '.repeat(17 * 1024 * 1024)))).toMatch(/too large for a course/);
  });
});
