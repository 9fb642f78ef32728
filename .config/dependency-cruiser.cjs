/** Imports point one way: http → studio → log; readmodels → log; plugins → the contract only. */
const only = (name, from, allowed, comment) => ({
  name,
  comment,
  severity: 'error',
  from: { path: from },
  to: { path: '^(server|plugins|web)/', pathNot: allowed },
});

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    only('contract-knows-nobody', '^server/contract/', '^server/contract/', 'The contract imports nothing of ours.'),
    only('log-knows-the-contract', '^server/log/', '^server/(log|contract)/', 'The log knows entries, not pots.'),
    only('studio-is-a-plugin', '^server/studio/', '^server/(studio|contract)/', 'The studio uses what any plugin could.'),
    only('plugins-know-the-contract', '^plugins/([^/]+)/', '^(server/contract|plugins/$1)/', 'A plugin imports the contract and itself.'),
    only('web-is-apart', '^web/', '^(web|server/contract|server/studio)/', 'The page imports types and the pure deciders.'),
    {
      name: 'server-loads-plugins-by-manifest',
      severity: 'error',
      from: { path: '^server/', pathNot: '^server/manifest\\.ts$' },
      to: { path: '^plugins/' },
    },
  ],
  options: { doNotFollow: { path: 'node_modules' }, tsConfig: { fileName: 'tsconfig.json' }, tsPreCompilationDeps: true },
};
