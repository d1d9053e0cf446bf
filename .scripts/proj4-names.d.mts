import type { Plugin } from 'vite';

export function fewNames(): Plugin;
