/** What of vega and vega-lite draws a still picture. The build puts all of it into this one file. */
export { Error as ERRORS_ONLY, View, parse } from 'vega';
export { compile } from 'vega-lite';
