#!/usr/bin/env node
// Starts the compiled command line. Plain enough for old versions of Node to get as far as the first message.
import { existsSync } from 'fs';

const main = new URL('../dist/cli/main.js', import.meta.url);
if (Number(process.versions.node.split('.')[0]) < 20) {
  console.error(`jambeam needs Node 20 or later; this is Node ${process.versions.node}`);
  process.exitCode = 2;
} else if (!existsSync(main)) {
  console.error('jambeam is not built yet: run `npm run build` in its folder');
  process.exitCode = 2;
} else {
  import(main.href)
    .then(({ main }) => main(process.argv.slice(2)))
    .catch((error) => {
      console.error(`jambeam can't start: ${error.message}\nin its folder, run \`npm ci\` and \`npm run build\``);
      process.exitCode = 1;
    });
}
