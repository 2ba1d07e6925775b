import type { Plugin } from 'vite';

export function compressed(bytes: Uint8Array): { br: Uint8Array; gz: Uint8Array };
export function compress(): Plugin;
