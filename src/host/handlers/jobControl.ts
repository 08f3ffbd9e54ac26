import { hostTroubles } from '../../words/hostTroubles.ts';
import { copyDeclined } from '../copyQueue.ts';
import type { CallHandler } from '../desk.ts';
import { trouble } from '../troubles.ts';

export const jobCancel: CallHandler<'job.cancel'> = (desk, { jobId }) => {
  const job = desk.jobs.list().find((j) => j.id === jobId);
  if (!desk.jobs.cancel(jobId)) throw trouble('notFound', hostTroubles.unknownJob);
  if (job) copyDeclined(desk, job);
  return {};
};

export const jobFirst: CallHandler<'job.first'> = (desk, { jobId }) => {
  if (!desk.jobs.first(jobId)) throw trouble('notFound', hostTroubles.unknownJob);
  return {};
};

export const uploadBegin: CallHandler<'upload.begin'> = async (desk, { name, bytes }) => ({
  uploadId: await desk.uploads.begin(name, bytes),
});
