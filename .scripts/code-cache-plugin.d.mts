import type { Plugin } from 'vite';

export function codeCache(): Plugin;
