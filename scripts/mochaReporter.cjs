// Prints as mocha's own `dot` reporter does, and writes the counts to the file named by the option `output`.
const { writeFileSync } = require('node:fs');
const { reporters } = require('mocha');

module.exports = class extends reporters.Dot {
  constructor(runner, options) {
    super(runner, options);
    const { output } = options.reporterOptions ?? options.reporterOption ?? {};
    runner.once('end', () => {
      if (output) writeFileSync(output, JSON.stringify({ stats: this.stats }));
    });
  }
};
