import type { Plugin } from 'vite';

export function filesIn(folder: string): string[];
export function serviceWorker(folder: string): string;
export function offline(): Plugin;
