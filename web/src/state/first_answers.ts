// Among the drafts of a ride, beside those of fields: the answers of its first run.
export const draftOfAnswers = "first";
