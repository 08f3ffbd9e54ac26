/** Kinds of refusal that are marked as such (design words; FCI practice as in the check values). */
export const refusalKinds = ['stopped', 'ranBy', 'throughFrame', 'walkedThrough', 'headInTunnel'] as const;
export type RefusalKind = (typeof refusalKinds)[number];

/** Every kind a judge calls: a wrong weave entry too, which a coach marks as an event of its own. */
export const judgedRefusals = [...refusalKinds, 'missedEntry'] as const;
export type JudgedRefusal = (typeof judgedRefusals)[number];
