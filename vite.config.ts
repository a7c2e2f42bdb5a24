import { defineConfig } from 'vite';

// Whoever builds it, a test too: the page is built for use.
process.env.NODE_ENV = 'production';

/** The page for the shop: one entry, a piece for each section, what they share, all of it served by the service itself. */
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
    modulePreload: false,
    // One stylesheet, and one file for what sections share: together they zip smaller than in a dozen pieces.
    cssCodeSplit: false,
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            {
              name: 'shared',
              test: /src\/(exact|units|page\/(parts|figures|pictures|service|shell|words)\/.*)\.tsx?$|node_modules\/preact/,
            },
          ],
        },
      },
    },
    assetsDir: '.',
    reportCompressedSize: false,
  },
});
