/**
 * Which file may import which: one way, cli and page -> drawings -> words -> solver -> geometry -> model, all but
 * cli and page pure. The templates, pure too, stand beside solver and geometry: cli -> templates -> model.
 */

const chain = ['model', 'geometry', 'solver', 'words', 'drawings', 'cli'];
const layers = [...chain, 'templates', 'verify', 'page'];
const pure = layers.filter((layer) => layer !== 'cli' && layer !== 'page');
const inLayers = (names) => `^src/(${names.join('|')})/`;

const oneWay = chain.slice(0, -1).map((layer, index) => ({
  name: `${layer}-imports-no-higher-layer`,
  comment: 'Imports run one way: cli -> drawings -> words -> solver -> geometry -> model.',
  severity: 'error',
  from: { path: inLayers([layer]) },
  to: { path: inLayers([...chain.slice(index + 1), 'templates', 'page']) },
}));

/** The rooms of the solver, in the order they may not import against. */
const rooms = ['measuring', 'bounding', 'searching', 'answering', 'explaining'];
const solverOneWay = rooms.slice(0, -1).map((room, index) => ({
  name: `solver-${room}-imports-no-later-room`,
  comment: 'Within the solver: explaining -> answering -> searching -> bounding -> measuring.',
  severity: 'error',
  from: { path: `^src/solver/${room}/` },
  to: { path: `^src/solver/(${rooms.slice(index + 1).join('|')})/` },
}));

export default {
  forbidden: [
    ...oneWay,
    ...solverOneWay,
    {
      name: 'cli-and-page-apart',
      comment: 'The page is built into a file that the cli serves: neither is part of the other.',
      severity: 'error',
      from: { path: inLayers(['cli']) },
      to: { path: inLayers(['page']) },
    },
    {
      name: 'page-and-cli-apart',
      severity: 'error',
      from: { path: inLayers(['page']) },
      to: { path: inLayers(['cli', 'templates']) },
    },
    {
      name: 'page-uses-no-node',
      comment: 'It runs in a browser.',
      severity: 'error',
      from: { path: inLayers(['page']) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'templates-import-the-model-alone',
      comment: 'A template says what a file could say: it measures and solves nothing.',
      severity: 'error',
      from: { path: inLayers(['templates']) },
      to: { path: inLayers([...chain.slice(1), 'page']) },
    },
    {
      name: 'verify-imports-the-model-alone',
      comment: 'It checks what the solver proved, so it shares nothing with it but the model.',
      severity: 'error',
      from: { path: inLayers(['verify']) },
      to: { path: inLayers([...chain.slice(1), 'templates', 'page']) },
    },
    {
      name: 'nothing-pure-imports-verify',
      comment: 'What is checked may not lean on what checks it.',
      severity: 'error',
      from: { path: inLayers([...chain.slice(0, -1), 'templates']) },
      to: { path: inLayers(['verify']) },
    },
    {
      name: 'pure-layers-use-no-node',
      comment: 'All but cli and page are pure: no files, no clock, no process.',
      severity: 'error',
      from: { path: inLayers(pure) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'every-source-file-has-a-layer',
      comment: 'A file of src/ outside the layers would escape the rules above.',
      severity: 'error',
      from: {},
      to: { path: '^src/', pathNot: inLayers(layers) },
    },
    {
      name: 'source-imports-only-source',
      comment: 'The product does not depend on its tests, benchmarks or tools.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(tests|bench|campaign|tools)/' },
    },
    {
      name: 'no-development-package-in-source',
      comment: 'What src/ imports must be installed with the package.',
      severity: 'error',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev', 'npm-peer', 'npm-optional'] },
    },
    {
      name: 'no-undeclared-package',
      comment: 'A package that package.json does not name is there by accident.',
      severity: 'error',
      from: {},
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
    },
    {
      name: 'no-unresolved-import',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'no-cycle',
      comment: 'Types included: two files that name one another are one file, or want a third.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
    },
  },
};
