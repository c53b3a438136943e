// Starts `precover language-server` for plans and rule packs, and hands it the settings. Nothing is sent anywhere else.
"use strict";

const vscode = require("vscode");
const { LanguageClient, TransportKind } = require("vscode-languageclient/node");
const { options, settings } = require("./settings");

let client;

exports.activate = async function activate() {
  const configured = () => settings(vscode.workspace.getConfiguration("precover"));
  client = new LanguageClient("precover", "precover", server(configured()), {
    ...options(configured()),
    middleware: { workspace: { didChangeConfiguration: tell } },
    synchronize: {
      configurationSection: "precover",
      fileEvents: vscode.workspace.createFileSystemWatcher("**/*.pack.{yaml,yml}"),
    },
  });
  try {
    await client.start();
  } catch (problem) {
    const [command] = configured().command;
    vscode.window.showErrorMessage(
      `precover: \`${command}\` does not run (${problem.message}). Install it with pip install "precover[editor]", ` +
        "or set precover.command.",
    );
  }

  function tell() {
    client.sendNotification("workspace/didChangeConfiguration", { settings: options(configured()).initializationOptions });
  }
};

exports.deactivate = function deactivate() {
  return client === undefined ? undefined : client.stop();
};

function server({ command: [command, ...args] }) {
  return { command, args: [...args, "language-server"], transport: TransportKind.stdio };
}
