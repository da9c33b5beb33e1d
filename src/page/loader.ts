/**
 * The only script that stands in the page as it is: unpacks the other one and hands it to the browser. The page's
 * policy knows both by their hashes, so nothing else can run; a browser that can't unpack shows the page as it was made.
 */
import { unpacked } from './unpack.js';

void unpacked('packed-alive').then((text) => {
  const script = document.createElement('script');
  script.textContent = text;
  document.head.append(script);
});
