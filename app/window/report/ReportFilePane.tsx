import { Download, ExternalLink, FileDown, FileText, Table2 } from 'lucide-react';
import { useStore } from 'zustand';
import { reportCopies } from '../../../src/report/copies.ts';
import { percent } from '../../../src/words/library.ts';
import { fileSize } from '../../../src/words/locale.ts';
import { reportWords } from '../../../src/words/report.ts';
import { useSaveCopy } from '../handOver/useSaveCopy.ts';
import { JobLine } from '../jobs/JobLine.tsx';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { SelectField } from '../look/Field.tsx';
import { useReview, useWorkbench } from '../stores/react.ts';
import styles from './ReportFilePane.module.css';

const words = reportWords.file;

/** The file to hand over: write it, see where it is, open it, save a copy. */
export function ReportFilePane() {
  const { shell, host, notices, reports } = useWorkbench();
  const saveCopy = useSaveCopy();
  const id = useReview((view) => view.id) ?? '';
  const state = useReview((view) => view.state);
  const stand = useStore(reports, (view) => view.byReview.get(id));
  const kind = useStore(reports, (view) => view.kind);
  const file = stand?.file ?? null;
  const asChosen = stand?.as?.short === kind.short && stand.as.copy === kind.copy;
  const writing = stand?.writing ?? null;
  const job = writing !== null && writing !== 'starting' ? writing : null;

  const write = (): void => void reports.write();
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };
  const open = file
    ? (): void => {
        shell.openReport(file.mediaId).catch(tell);
      }
    : undefined;
  const save = file
    ? (): void => {
        shell.saveReport(file.mediaId, file.name).then((saved) => {
          if (saved) notices.getState().say(words.saved);
        }, tell);
      }
    : undefined;
  const pdf = (): void => {
    void saveCopy(reports.writePdf(), words.saved);
  };
  const figures = (): void => {
    void saveCopy(host.call('report.figures', { reviewId: id }), words.figuresSaved);
  };
  useActs({
    'report.pdf': writing ? undefined : pdf,
    'report.figures': figures,
    'report.write': writing ? undefined : write,
    'report.open': open,
    'report.save': save,
  });

  return (
    <section className={styles['pane']}>
      <h2>{words.title}</h2>
      {!file && <p className={styles['soft']}>{words.intro}</p>}
      <div className={styles['choice']}>
        <SelectField<'full' | 'short'>
          label={words.length}
          value={kind.short ? 'short' : 'full'}
          options={[
            ['full', words.lengths.full],
            ['short', words.lengths.short],
          ]}
          onChange={(length) => {
            reports.choose({ short: length === 'short' });
          }}
        />
        <SelectField
          label={words.copy}
          value={kind.copy}
          options={reportCopies.map((copy) => [copy, words.copies[copy]])}
          onChange={(copy) => {
            reports.choose({ copy });
          }}
        />
      </div>
      {writing ? (
        <div className={styles['writing']}>
          <p role="status">
            {words.writing} {job?.total ? percent(job.done, job.total) : ''}
          </p>
          {job && <JobLine job={job} label={words.writing} />}
        </div>
      ) : (
        <div className={styles['acts']}>
          <Button
            kind={file && asChosen && stand.of === state ? 'plain' : 'main'}
            icon={<FileText aria-hidden />}
            act="report.write"
            onClick={write}
          >
            {file ? words.again : words.write}
          </Button>
          {open && (
            <Button icon={<ExternalLink aria-hidden />} act="report.open" onClick={open}>
              {words.open}
            </Button>
          )}
          {save && (
            <Button icon={<Download aria-hidden />} act="report.save" onClick={save}>
              {words.save}
            </Button>
          )}
        </div>
      )}
      <div className={styles['acts']}>
        {!writing && (
          <Button icon={<FileDown aria-hidden />} act="report.pdf" onClick={pdf}>
            {words.pdf}
          </Button>
        )}
        <Button
          icon={<Table2 aria-hidden />}
          act="report.figures"
          title={words.figuresHint}
          onClick={figures}
        >
          {words.figures}
        </Button>
      </div>
      {file && (
        <>
          <p>{!asChosen ? words.otherKind : stand.of === state ? words.upToDate : words.changed}</p>
          <dl className={styles['facts']}>
            <dt>{words.place}</dt>
            <dd>{file.path}</dd>
            <dt>{words.size}</dt>
            <dd>{fileSize(file.bytes)}</dd>
          </dl>
        </>
      )}
    </section>
  );
}
