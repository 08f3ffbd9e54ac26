import { hostTroubles } from '../../words/hostTroubles.ts';
import type { CallHandler } from '../desk.ts';
import { trouble } from '../troubles.ts';

export const jobCancel: CallHandler<'job.cancel'> = (desk, { jobId }) => {
  if (!desk.jobs.cancel(jobId)) throw trouble('notFound', hostTroubles.unknownJob);
  return {};
};

export const uploadBegin: CallHandler<'upload.begin'> = async (desk, { name, bytes }) => ({
  uploadId: await desk.uploads.begin(name, bytes),
});
