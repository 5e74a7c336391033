import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { offlineCopy } from './build/offline-copy.ts';
import { readySample } from './build/ready-sample.ts';

export default defineConfig({
  // relative, so that the built folder works from any web host and under any sub-path
  base: './',
  plugins: [react(), readySample(), offlineCopy()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    outDir: 'dist',
    emptyOutDir: true,
    chunkSizeWarningLimit: 1200,
    // slow steps of a build concern its developers only
    rolldownOptions: { checks: { pluginTimings: false } },
  },
  server: { fs: { allow: ['../..'] } },
});
