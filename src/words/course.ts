/** Words of the Course screen. */
export const courseWords = {
  title: 'Course',
  acts: {
    addObstacle: 'Add an obstacle',
    attachPicture: 'Attach a picture of the map',
    placeNumbers: 'Click the numbers into place',
    addCross: 'Plan a cross at the chosen obstacle',
    nextNumber: 'Next number',
    previousNumber: 'Previous number',
    left: 'Move the number left',
    right: 'Move the number right',
    up: 'Move the number up',
    down: 'Move the number down',
  },
} as const;
