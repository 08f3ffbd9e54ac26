/** video.js without the parts that fetch streams: the same player class as the whole package exports. */
declare module 'video.js/core.es.js' {
  import videojs from 'video.js';
  export default videojs;
}
