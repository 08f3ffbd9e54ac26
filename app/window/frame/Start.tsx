import { useEffect, useState } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { useJobs, useLibrary, useWorkbench } from '../stores/react.ts';
import { whereToStart } from './whereToStart.ts';
import styles from './Screen.module.css';

/** Leads on to a demo run in a library that was just set up, and to the Library in any other. */
export function Start() {
  const { host, route } = useWorkbench();
  const [fresh, setFresh] = useState<boolean | null>(null);
  const known = useLibrary((view) => view.known);
  const reviews = useLibrary((view) => view.reviews);
  const jobs = useJobs((view) => view.jobs);
  useEffect(() => {
    let gone = false;
    const told = (value: boolean): void => {
      if (!gone) setFresh(value);
    };
    host.call('library.about', {}).then(
      (about) => {
        told(about.fresh);
      },
      () => {
        // The Library tells what the matter is.
        told(false);
      },
    );
    return () => {
      gone = true;
    };
  }, [host]);
  const next = known && fresh !== null ? whereToStart(fresh, reviews, jobs) : null;
  useEffect(() => {
    if (next) route.goInstead(next);
  }, [next, route]);
  return <p className={styles['wait']}>{windowWords.settingOut}</p>;
}
