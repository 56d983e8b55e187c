import { languageService } from '../../language/service.ts';
import { catalogue } from '../../verbs/catalogue.ts';

/** The language, with the verbs and kinds of value that there are. */
export const language = languageService(catalogue);
