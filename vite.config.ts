import { defineConfig } from 'vite';

/** The page for the shop: one entry, a piece for each section, all of it served by the service itself. */
export default defineConfig({
  root: 'src/page',
  base: '/page/',
  publicDir: false,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../../dist/page',
    emptyOutDir: true,
    target: 'es2022',
    // The content security policy of the page allows files of its own and nothing within them.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    assetsDir: '.',
    reportCompressedSize: false,
  },
});
