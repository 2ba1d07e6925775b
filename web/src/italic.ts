/** The italic letters come after the first screen, and take part once they are there: until then the browser slants the upright ones. */
import url from './fonts/literata-italic.woff2?url';

void new FontFace('Literata', `url("${url}") format("woff2")`, { style: 'italic', weight: '400' }).load().then(
  (italic) => document.fonts.add(italic),
  // The slanted ones stay.
  () => undefined,
);
