// Makes src/api/schema.ts, the types of the API, out of the OpenAPI document (src/api/openapi/*.json of the program):
// npm run types. It runs before every build and check, and the file is in no repository.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import openapiTS, { astToString } from 'openapi-typescript';

const here = fileURLToPath(new URL('.', import.meta.url));
const parts = join(here, '../src/api/openapi');
const document = {};

// The parts are joined as the program's build joins them (cmake/join_openapi.cmake).
for (const name of readdirSync(parts).filter((n) => n.endsWith('.json')).sort()) {
  for (const [key, value] of Object.entries(JSON.parse(readFileSync(join(parts, name), 'utf8')))) {
    if (key === 'paths') Object.assign((document.paths ??= {}), value);
    else if (key === 'components') {
      for (const [kind, held] of Object.entries(value)) Object.assign(((document.components ??= {})[kind] ??= {}), held);
    } else document[key] = value;
  }
}

const made = `// Written by types.mjs.\n${astToString(await openapiTS(document))}`;
const out = join(here, 'src/api/schema.ts');
let there = '';
try {
  there = readFileSync(out, 'utf8');
} catch {
  // the first time
}
if (there !== made) writeFileSync(out, made);
