"use strict";

const assert = require("node:assert");
const { spawn } = require("node:child_process");
const { readFileSync } = require("node:fs");
const { test } = require("node:test");
const { options, settings } = require("./settings");

const manifest = JSON.parse(readFileSync(`${__dirname}/package.json`, "utf8"));
const declared = manifest.contributes.configuration.properties;
const set = (values) => ({ get: (name) => values[name] });

test("what is not set is as the manifest says", () => {
  const defaults = Object.fromEntries(Object.entries(declared).map(([name, one]) => [name.split(".")[1], one.default]));
  assert.deepStrictEqual(settings(set({})), defaults);
  assert.deepStrictEqual(settings(set(defaults)), defaults);
});

test("values of the wrong kind count as not set", () => {
  assert.deepStrictEqual(settings(set({ command: [], packs: "us-2023", hints: "no" })), settings(set({})));
});

test("packs and hints reach the server", () => {
  const given = options(settings(set({ packs: ["us-2023"], hints: false })));
  assert.deepStrictEqual(given.initializationOptions, { packs: ["us-2023"], hints: false });
});

test("every language that is declared is served", () => {
  const served = options(settings(set({}))).documentSelector.map((one) => one.language);
  assert.deepStrictEqual(served.sort(), manifest.contributes.languages.map((one) => one.id).sort());
});

test("the files that the manifest names are there", () => {
  const files = [...manifest.contributes.languages.map((one) => one.configuration), ...manifest.contributes.grammars.map((one) => one.path)];
  for (const file of files) JSON.parse(readFileSync(`${__dirname}/${file}`, "utf8"));
});

// With PRECOVER (the command) in the environment: the server that the extension would start, started.
test("the server answers", { skip: !process.env.PRECOVER && "PRECOVER names no command" }, async () => {
  const server = spawn(process.env.PRECOVER, ["language-server"], { stdio: ["pipe", "pipe", "inherit"] });
  const body = JSON.stringify({ jsonrpc: "2.0", id: 1, method: "initialize", params: { processId: null, rootUri: null, capabilities: {}, ...options(settings(set({}))) } });
  server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  const [first] = await require("node:events").once(server.stdout, "data");
  server.kill();
  assert.match(first.toString(), /hoverProvider|Content-Length/);
});
