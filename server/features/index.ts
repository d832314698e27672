/** Every editor feature, one line each. Where the order matters to a reader, it is that of what users feel most. */
import type { Feature } from '../session.ts';
import { checkPages } from './checkPages.ts';
import { diagnostics } from './diagnostics.ts';

export const features: readonly Feature[] = [diagnostics];
