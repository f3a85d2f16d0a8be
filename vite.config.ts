import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { sourceHash, webApp } from './scripts/sources.mjs';

export default defineConfig({
  root: 'src/web',
  plugins: [react()],
  // The app tells the server which build it is, so that two builds are never mixed.
  define: { 'import.meta.env.VITE_BUILD_HASH': JSON.stringify(sourceHash(webApp)) },
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    // For a content security policy of 'self': no inline script, no data: URL.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    reportCompressedSize: false,
  },
});
