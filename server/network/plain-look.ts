/** The look of pages that stand by themselves: for somebody who has not opened Wareboard and may never. */
export const PLAIN_LOOK = `
:root { color-scheme: light dark; --ink: #1d1a16; --paper: #fbf9f4; --rule: #6b6459; --iron: #8a3413; }
@media (prefers-color-scheme: dark) { :root { --ink: #f1ece2; --paper: #171512; --rule: #a49b8c; --iron: #f0a07c; } }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.125rem/1.5 system-ui, sans-serif; }
main { max-width: 38rem; margin: 0 auto; padding: 1.5rem 1.25rem 4rem; }
h1 { font-size: 1.6rem; line-height: 1.2; } h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; }
.get { display: inline-block; padding: .9rem 1.25rem; border: 2px solid var(--iron); color: var(--iron); font: inherit; font-weight: 650; text-decoration: none; background: none; cursor: pointer; }
label { display: block; font-weight: 600; margin: 1.5rem 0 .25rem; }
select { font: inherit; min-height: 3rem; padding: .25rem .5rem; color: inherit; background: var(--paper); border: 1px solid var(--rule); }
form p { margin: 1.5rem 0; } .studio { color: var(--rule); margin: 0; }
a { color: var(--iron); } .place { display: block; padding: .75rem 0; overflow-wrap: anywhere; font-weight: 600; }
:focus-visible { outline: 3px solid var(--iron); outline-offset: 3px; }
code { display: block; font: 600 1rem/1.7 ui-monospace, monospace; overflow-wrap: anywhere; border-block: 1px solid var(--rule); padding: .5rem 0; }
li { margin: .4rem 0; }
`;
