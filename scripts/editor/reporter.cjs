// Prints as mocha's own `spec` reporter does, for tests that take seconds each, and writes the counts to `output`.
const { writeFileSync } = require('node:fs');
const { reporters } = require('mocha');

module.exports = class extends reporters.Spec {
  constructor(runner, options) {
    super(runner, options);
    const { output } = options.reporterOptions ?? options.reporterOption ?? {};
    runner.once('end', () => {
      if (output) writeFileSync(output, JSON.stringify({ stats: this.stats }));
    });
  }
};
