import routines from '../../schemas/defaults/routines.csv';
import species from '../../schemas/defaults/species.csv';

/** The species that come with the tool, in the format of the keeper's own `species.csv`. */
export const defaultSpeciesText: string = species;

/** The routines that come with the tool, in the format of the keeper's own `routines.csv`. */
export const defaultRoutinesText: string = routines;
