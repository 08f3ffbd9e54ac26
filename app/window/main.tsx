import '@fontsource-variable/source-sans-3/wght.css';
import './look/base.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './frame/App.tsx';
import { ErrorBoundary } from './frame/ErrorBoundary.tsx';
import { watchForTrouble } from './frame/watchForTrouble.ts';
import { wearTheme } from './look/theme.ts';
import { findShell } from './shell/index.ts';
import { WorkbenchContext } from './stores/react.ts';
import { createWorkbench } from './stores/workbench.ts';

const place = document.getElementById('window');
if (!place) throw new Error('index.html has no place for the window.');

wearTheme('system');
const workbench = createWorkbench(findShell(), window);
watchForTrouble(workbench);

createRoot(place).render(
  <StrictMode>
    <ErrorBoundary>
      <WorkbenchContext value={workbench}>
        <App />
      </WorkbenchContext>
    </ErrorBoundary>
  </StrictMode>,
);
