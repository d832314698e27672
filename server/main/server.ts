import { serve } from './node.ts';

serve();
