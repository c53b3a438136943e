// What the extension makes of its settings; apart from the editor, so that it can be tested without one.
"use strict";

const SELECTOR = [{ language: "precover-plan" }, { language: "precover-pack" }];

/** The settings as they stand, those of the wrong kind as if they were not set. */
function settings(configuration) {
  const command = configuration.get("command");
  const packs = configuration.get("packs");
  const hints = configuration.get("hints");
  const texts = (list) => Array.isArray(list) && list.every((one) => typeof one === "string");
  return {
    command: texts(command) && command.length > 0 ? command : ["precover"],
    packs: texts(packs) ? packs : [],
    hints: typeof hints === "boolean" ? hints : true,
  };
}

/** The options of the language client. */
function options({ packs, hints }) {
  return { documentSelector: SELECTOR, initializationOptions: { packs, hints } };
}

module.exports = { options, settings };
