/** What stands wherever heights are shown (common practice among trainers and veterinarians). */
export const heightCautions = [
  'These are heights of the rules, not of today’s training.',
  'Growing dogs do not drill full-height jumps; unfit dogs and wet ground ask for lower bars. Warm up first.',
  'Stop at any sign of lameness and see a veterinarian. Your organisation’s rules and licensed veterinary practice go before this page.',
] as const;
