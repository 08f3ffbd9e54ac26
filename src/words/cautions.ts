export const beforeThisPage =
  'Stop at any sign of lameness and see a veterinarian. Your organisation’s rules and licensed veterinary practice go before this page.';

/** What stands wherever heights are shown (common practice among trainers and veterinarians). */
export const heightCautions = [
  'These are heights of the rules, not of today’s training.',
  'Growing dogs do not drill full-height jumps; unfit dogs and wet ground ask for lower bars. Warm up first.',
  beforeThisPage,
] as const;

/** What stands where tries are counted, so that nobody drills for the count (common practice, as above). */
export const skillCautions = [
  'A count is no reason to drill. Growing dogs do not train full-height jumps or weaves; tight turns and hard entries, again and again, strain any dog. Warm up first, few tries at a time.',
  beforeThisPage,
] as const;
