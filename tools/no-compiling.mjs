/** For the page, whose policy allows no code made at run time: schemas are walked, not compiled. */
import { config } from 'zod';

config({ jitless: true });
