export interface Stage { open(s: unknown): Promise<void> }
export function openStage(_c: HTMLElement): Stage { return { open: async () => undefined }; }
