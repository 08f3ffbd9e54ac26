import { Plan, type PlannedCross, type PlanSheet, type Support } from '../src/plan/plan.ts';
import { Header } from '../src/review/document.ts';

/** What the demo says of the planned run: not run yet, so nothing of how it went. */
export const plannedHeader = Header.parse({
  title: 'Plan it before you run it',
  dog: 'Bramble',
  handler: 'Ines',
  stage: 'growing',
  runKind: 'training',
  day: '2026-06-07',
  words: {
    toTrain:
      'Before Sunday: into the poles from the left, with a wing beside the way in. Slowly, and a few times only.\nSend her on into a tunnel and change sides behind her.',
  },
});

const start = {
  wait: { x: 6.2, y: 8.5 },
  leadOut: { x: 17.4, y: 6.3 },
} as const satisfies Partial<PlanSheet>;

const frontAt3: Omit<PlannedCross, 'id'> = {
  place: 3,
  kind: 'front',
  reason: 'Puts me inside for the tunnel and the gate.',
  secondChoice: 'rear',
  at: { x: 23.2, y: 7 },
  secondAt: { x: 18.2, y: 7.7 },
};

const blindAt15: Omit<PlannedCross, 'id'> = {
  place: 15,
  kind: 'blind',
  reason: 'The last line bends left: from here I have the inside.',
  at: { x: 14.3, y: 20.1 },
};

/** Where the handler crosses behind the dog before the blue tunnel. */
const behindAt13 = { x: 24.4, y: 14.8 };

/** The same in both plans; ids are told apart by `of`. */
const supports = (of: string): Support[] => [
  { id: `${of}-6`, place: 6, until: 'in', at: { x: 21.8, y: 17.7 } },
  { id: `${of}-8`, place: 8, until: 'out', at: { x: 6.9, y: 13.6 } },
  { id: `${of}-10`, place: 10, until: 'out', at: { x: 20.5, y: 5.8 } },
  { id: `${of}-12`, place: 12, until: 'out', at: { x: 25.5, y: 13.8 } },
];

/** The plan in use, whose front at 13 comes too late, and beside it the one that holds. */
export const plannedHandling: Plan = Plan.parse({
  ...start,
  name: 'Two fronts',
  supports: supports('front'),
  crosses: [
    { id: 'front-3', ...frontAt3 },
    {
      id: 'front-13',
      place: 13,
      kind: 'front',
      reason: 'Straight on stands the white one: turn her right.',
      secondChoice: 'rear',
      at: { x: 15.2, y: 12.1 },
      secondAt: behindAt13,
    },
    { id: 'front-15', ...blindAt15 },
  ],
  notes:
    'The gate comes twice: first on to the poles, then back to the blue tunnel. At 12 I stay until she has landed and looks at me, or she goes to the poles again.\nA-frame and dog walk: I stay until she is off. She is still learning to stop at the bottom.',
  others: [
    {
      ...start,
      name: 'Rear at 13',
      supports: supports('rear'),
      crosses: [
        { id: 'rear-3', ...frontAt3 },
        {
          id: 'rear-13',
          place: 13,
          kind: 'rear',
          reason: 'I can stay at the gate as long as she needs me.',
          at: behindAt13,
        },
        { id: 'rear-15', ...blindAt15 },
      ],
      landings: [{ number: 5, at: { x: 27.4, y: 16.2 } }],
      notes:
        'At 5 I drive on until she is in the air: she lands farther out and sees the first two poles. Called sooner she cuts the corner, and a wing of 17 hides them.',
    },
  ],
});
