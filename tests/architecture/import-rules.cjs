/** Who may import whom: a whitelist, one line for each folder. The picture stands in DEVELOPERS.md. */
const may = (from, ...to) => ({
  from: { path: `^src/${from}` },
  to: { path: to.map((target) => (target.startsWith('^') ? target : `^src/${target}`)) },
});
const npm = (...names) => names.map((name) => `^node_modules/(@types/)?${name}/`);
const node = (...names) => names.map((name) => `^(node:)?${name}$`);
const LEAVES = ['exact\\.ts$', 'units\\.ts$'];

module.exports = {
  allowed: [
    may('units\\.ts$', 'exact\\.ts$'),
    may('chemistry\\.ts$', 'exact\\.ts$'),
    may('batch/', 'batch/', ...LEAVES),
    may('solver/(?!engines)', 'solver/(?!engines)', 'exact\\.ts$'),
    may(
      'solver/engines/',
      'solver/engines/',
      'solver/(model|engine-names)\\.ts$',
      ...npm('javascript-lp-solver', 'highs'),
    ),
    may('rules/', 'rules/', 'batch/', 'chemistry\\.ts$', 'solver/exact-model\\.ts$', ...LEAVES),
    may('standards/', 'standards/', 'rules/', ...LEAVES),
    may('formulate/', 'formulate/', 'rules/', 'batch/', 'solver/(?!engines)', ...LEAVES),
    may('correct/', 'correct/', 'formulate/', 'rules/', 'batch/', 'solver/(?!engines)', ...LEAVES),
    may('plan/', 'plan/', 'formulate/', 'rules/', 'batch/', 'solver/(?!engines)', ...LEAVES),
    may('labels/', 'labels/', 'formulate/blend\\.ts$', 'rules/', 'batch/', ...LEAVES),
    may('documents/', 'documents/', 'labels/', 'formulate/blend\\.ts$', 'rules/', 'batch/', ...LEAVES),
    may('tables/', 'tables/', 'batch/', ...LEAVES, ...node('fs', 'path'), ...npm('csv-parse', 'zod')),
    may(
      'api/',
      'api/',
      'documents/',
      'labels/',
      'formulate/',
      'correct/',
      'plan/',
      'standards/all\\.ts$',
      'rules/',
      'tables/',
      'batch/',
      'solver/engine-names\\.ts$',
      'solver/model\\.ts$',
      ...LEAVES,
      ...node('fs', 'http', 'module', 'net', 'os', 'path', 'url', 'worker_threads'),
      ...npm('express', 'express-rate-limit', 'helmet', 'pino', 'pino-http', 'piscina', 'zod', 'zod-openapi'),
    ),
    // The worker is the one place that brings the engine to the use-case for the service.
    may('api/job-worker\\.ts$', 'solver/engines/'),
    may('main\\.ts$', 'api/', 'documents/', ...npm('pino')),
    may(
      'cli\\.ts$',
      'api/',
      'documents/',
      'solver/engines/',
      'solver/engine-names\\.ts$',
      'standards/all\\.ts$',
      'tables/',
      ...node('fs', 'util'),
    ),
    may('launch\\.mjs$', ...node('fs', 'path', 'url', 'crypto', 'child_process')),
  ],
  allowedSeverity: 'error',
  forbidden: [
    { name: 'no-cycle', severity: 'error', from: {}, to: { circular: true } },
    { name: 'no-unresolvable', severity: 'error', from: {}, to: { couldNotResolve: true } },
    {
      name: 'express-only-in-the-rim',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/api/(app|routes|error-handler|docs-page|rules-page)\\.ts$' },
      to: { path: '^node_modules/(@types/)?express/' },
    },
    {
      name: 'only-formulate-solves',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(correct|formulate|plan|solver)/' },
      to: { path: '^src/solver/(solve|relax)\\.ts$' },
    },
  ],
  options: {
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  },
};
