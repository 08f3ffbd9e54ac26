/** Names of the messages between preload and main. */
export const channels = {
  wire: 'walkback:wire',
  hostEnded: 'walkback:hostEnded',
  openFiles: 'walkback:openFiles',
  openReport: 'walkback:openReport',
  saveFile: 'walkback:saveFile',
  saveReport: 'walkback:saveReport',
} as const;
