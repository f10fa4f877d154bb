#include "cli/verb.hpp"

#include "memory/rehearsal/policy.hpp"
#include "trade/work/calculator.hpp"

namespace cli {
namespace {

const std::vector<std::string> kEditions = {"2017", "2020", "2023", "2026"};

OptionSpec option(std::string name, std::string value, std::string does, bool repeats = false,
                  std::vector<std::string> choices = {}) {
    return {std::move(name), std::move(value), std::move(does), repeats, std::move(choices)};
}

std::vector<OptionSpec> learner_options() {
    return {option("--edition", "YEAR", "edition to study under, whatever the jurisdiction", false, kEditions),
            option("--jurisdiction", "ID", "whose adopted edition counts; 'none' for nobody's"),
            option("--exam", "DATE", "day of the licensing exam; 'none' when there is none")};
}

std::vector<OptionSpec> set_options() {
    auto options = learner_options();
    options.push_back(option("--name", "NAME", "a new name"));
    options.push_back(option("--back", "", "back in the crew after leaving"));
    return options;
}

/// A verb for each calculator, under "work".
void add_calculators(std::vector<Verb>& verbs) {
    for (const auto& one : trade::calculators()) {
        Verb verb;
        verb.group = "work";
        verb.name = one.name;
        verb.does = one.does;
        verb.run = run_work;
        verb.more_options = work_options;
        verbs.push_back(std::move(verb));
    }
    verbs.push_back({"work", "list", "the calculators there are", {}, {}, run_work_list});
}

const WordSpec kName{"NAME", "who; a name or the start of an id", true, false, {}};

std::vector<OptionSpec> require_options() {
    return {option("--facts", "FILE", "facts as a JSON object (with --batch: as JSON Lines); - is standard input"),
            option("--batch", "", "JSON Lines in, JSON Lines out, one answer for each line"),
            option("--ask", "RESULT", "look only at this: GFCI, AFCI, TR, ...", true),
            option("--edition", "YEAR", "edition to judge under", false, kEditions),
            option("--jurisdiction", "ID", "whose adopted edition and amendments count"),
            option("--list", "", "the facts and the rules there are")};
}

std::vector<OptionSpec> rehearse_options() {
    std::vector<std::string> policies;
    for (const auto& one : memory::rehearsal::policies()) policies.emplace_back(one.name);
    return {option("--points", "N", "size of the library (200)"),
            option("--days", "N", "until the exam (60)"),
            option("--minutes", "N", "a day (8)"),
            option("--learners", "N", "how many (40)"),
            option("--known", "N", "of a hundred points known before the first day (40)"),
            option("--spread", "HOW", "known points scattered, or in whole families", false, {"scattered", "families"}),
            option("--stakes", "", "points weigh by their stakes"),
            option("--days-off", "N", "of a hundred days without a session (0)"),
            option("--policy", "NAME", "only this one beside rotation", true, policies),
            option("--generator", "NAME", "where answers come from; both without it", false, {"traces", "pools"}),
            option("--csv", "FILE", "the figures as CSV"),
            option("--plot", "FILE", "recall by policy, as an SVG picture")};
}

std::vector<OptionSpec> job_options() {
    return {option("--who", "NAME", "who goes; what they are weak on comes first", true),
            option("--minutes", "N", "of the drill, 1 to 240 (5)"),
            option("--no-drill", "", "the reminder alone"),
            option("--why", "", "all points that were found, and what found them"),
            option("--html", "FILE", "the reminder as a page to print; no drill"),
            option("--edition", "YEAR", "edition that governs", false, kEditions),
            option("--jurisdiction", "ID", "whose adopted edition and amendments count")};
}

const OptionSpec kPaper = option("--paper", "SIZE", "letter or a4 (letter)", false, {"letter", "a4"});

std::vector<Verb> make_verbs() {
    std::vector<Verb> verbs = {
        {"",
         "study",
         "answer questions: what you were sure of and wrong, what is new, what has waited longest",
         {option("--minutes", "N", "time to spend, 1 to 240 (10)"), option("--count", "N", "at most so many asks"),
          option("--topic", "NAME", "only this topic", true),
          option("--tag", "NAME", "only points with this tag", true),
          option("--no-call", "", "no service call in between"),
          option("--open-book", "", "find places in your own book against the clock"),
          option("--lines", "", "the session as a JSON Lines dialogue on standard input and output"),
          option("--reveal", "", "with --lines: the right answer comes with the ask"),
          option("--demo", "", "an invented learner in a data home of its own; without a terminal it plays by itself")},
         {},
         run_study},
        {"",
         "find",
         "points and articles by words or by reference",
         {option("--most", "N", "how many to show (12)")},
         {{"WORDS", "what to look for", true, true, {}}},
         run_find},
        {"",
         "require",
         "what protection the facts call for, and why",
         require_options(),
         {{"FACTS", "facts as NAME=VALUE, such as location=kitchen", false, true, {}}},
         run_require},
        {"",
         "job",
         "before a job: a five-minute drill of what bears on it, then a one-page reminder",
         job_options(),
         {{"WORDS", "the job, such as bath fan; and facts as NAME=VALUE", true, true, {}}},
         run_job},
        {"week",
         "plan",
         "the year's articles, one a week: made, or made anew with what has changed",
         {option("--outline", "ID", "only what this exam asks; all takes it back"),
          option("--edition", "YEAR", "of the code (what most of the crew has)", false, kEditions),
          option("--from", "DATE", "the year begins (today)"), option("--weeks", "N", "how many (52)"),
          option("--on", "WEEKDAY", "day of the meeting (monday)", false,
                 {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}),
          option("--holiday", "DATE[..DATE][=NAME]", "no meeting then", true),
          option("--pin", "DATE=ARTICLE", "that week is for this article or section", true),
          option("--free", "DATE", "take back the pin or holiday that begins then", true),
          option("--fresh", "", "forget the plan so far and all that was said of it"),
          option("--look", "", "only show what it would be"),
          option("--calendar", "FILE", "the plan for a calendar (iCalendar)")},
         {},
         run_week_plan},
        {"week",
         "year",
         "the plan as it stands",
         {option("--calendar", "FILE", "the plan for a calendar (iCalendar)")},
         {},
         run_week_year},
        {"week",
         "show",
         "this week's article: its points, a two-minute talk, and what comes next",
         {option("--of", "DATE", "the week of that day")},
         {},
         run_week_show},
        {"week",
         "drill",
         "study this week's points",
         {option("--of", "DATE", "the week of that day"), option("--minutes", "N", "time to spend, 1 to 240 (10)"),
          option("--count", "N", "at most so many asks")},
         {},
         run_week_drill},
        {"meeting",
         "plan",
         "asks for a shop meeting: the week's article, the crew's corrections, coming jobs",
         {option("--on", "DATE", "the day (today)"), option("--asks", "N", "how many, 8 to 12 (10)"),
          option("--job", "WORDS", "a coming job, such as \"bath fan\"", true),
          option("--edition", "YEAR", "of the code (what most of the crew has)", false, kEditions),
          option("--title", "TEXT", "what the sheets say above"), option("--shop", "NAME", "the shop's name on them"),
          option("--again", "", "in the place of one planned for that day"),
          option("--look", "", "only show what it would be")},
         {},
         run_meeting_plan},
        {"meeting",
         "sheet",
         "the sheets to print, one a learner, each with options in an order of its own",
         {option("--of", "DATE", "the meeting of that day (the latest)"),
          option("--html", "FILE", "the pages; a browser prints them"), kPaper,
          option("--form", "FILE", "a CSV to enter the answers in with a spreadsheet")},
         {},
         run_meeting_sheet},
        {"meeting",
         "key",
         "the answers by sheet, and why, for the lead",
         {option("--of", "DATE", "the meeting of that day (the latest)"),
          option("--html", "FILE", "the page; a browser prints it"), kPaper},
         {},
         run_meeting_key},
        {"meeting",
         "enter",
         "answers from paper into the log: a line a sheet, such as 12 bacd-e, or CSV",
         {option("--of", "DATE", "the meeting of that day (the latest)")},
         {{"FILE", "lines or CSV; standard input without it", false, false, {}}},
         run_meeting_enter},
        {"meeting",
         "review",
         "share right by ask, the common mistakes, and what to talk about",
         {option("--of", "DATE", "the meeting of that day (the latest)"), option("--html", "FILE", "as a page"), kPaper,
          option("--no-names", "", "for the wall: nobody is named")},
         {},
         run_meeting_review},
        {"",
         "report",
         "how somebody stands and how it came, or the crew for its lead",
         {option("--crew", "", "everyone, with what needs the lead today first"),
          option("--outline", "ID", "readiness for this exam with it"),
          option("--html", "FILE", "as one page that needs nothing else"),
          option("--csv", "DIR", "tables for the office")},
         {{"NAME", "the learner; whoever studies here without it", false, false, {}}},
         run_report},
        {"crew",
         "add",
         "add someone who studies",
         learner_options(),
         {{"NAME", "their name", true, false, {}}},
         run_crew_add},
        {"crew", "list", "who is in the crew", {}, {}, run_crew_list},
        {"crew", "show", "one learner and how they stand", {}, {kName}, run_crew_show},
        {"crew", "set", "change a learner's edition, jurisdiction, exam or name", set_options(), {kName}, run_crew_set},
        {"crew", "retire", "someone has left; their answers are kept", {}, {kName}, run_crew_retire},
        {"library", "check", "everything wrong with the content, all at once", {}, {}, run_library_check},
        {"library",
         "list",
         "the points there are",
         {option("--topic", "NAME", "only this topic", true),
          option("--tag", "NAME", "only points with this tag", true),
          option("--edition", "YEAR", "only points that this edition has", false, kEditions),
          option("--unverified", "", "only statements not confirmed for an edition")},
         {},
         run_library_list},
        {"library",
         "show",
         "one point or service call in full",
         {},
         {{"ID", "its id", true, false, {}}},
         run_library_show},
        {"library",
         "coverage",
         "what there is by topic, article, form, edition and stakes, against the exam outlines",
         {},
         {},
         run_library_coverage},
        {"library",
         "originality",
         "runs of words that the content shares with a text of yours",
         {option("--against", "FILE", "the text, such as a code book you own, as plain text; it is only read", true),
          option("--least", "N", "shared words that make a finding (8)")},
         {},
         run_library_originality},
        {"library",
         "new",
         "write a point of your own: asks for each part, checks as you go",
         {option("--deck", "NAME", "the deck it goes to (shop)"),
          option("--into", "DIR", "a folder of own content (library in the data home)")},
         {},
         run_library_new},
        {"library",
         "import",
         "points of your own from a spreadsheet saved as CSV",
         {option("--deck", "NAME", "the deck they go to, where the sheet names none (the file's name)"),
          option("--into", "DIR", "a folder of own content (library in the data home)"),
          option("--dry-run", "", "only tell what is wrong and what would be written")},
         {{"FILE", "the CSV file", true, false, {}}},
         run_library_import},
        {"library",
         "export",
         "decks as a spreadsheet (CSV), to read, change and import again",
         {option("--deck", "NAME", "only this deck", true),
          option("--out", "FILE", "write there instead of to the screen"),
          option("--template", "", "an example to begin with: a row for each form of question")},
         {},
         run_library_export},
        {"library",
         "items-out",
         "questions for a learning platform, as items of the open standard QTI 2.1",
         {option("--edition", "YEAR", "as they hold under this edition (2023)", false, kEditions),
          option("--topic", "NAME", "only this topic", true),
          option("--unverified", "", "statements not verified for the edition too, marked as such")},
         {{"DIR", "a new or empty folder", true, false, {}}},
         run_library_items_out},
        {"library",
         "unread",
         "questions that no second reader has answered as they stand, without their answers (JSON Lines)",
         {option("--all", "", "those that have been read too"), option("--calls", "", "only asks of service calls"),
          option("--topic", "NAME", "only this topic", true)},
         {},
         run_library_unread},
        {"library",
         "reading",
         "mark what a second reader answered, and keep which questions stand",
         {option("--answers", "FILE", "JSON Lines: id, edition, answer, perhaps a note"),
          option("--reader", "NAME", "who has read"), option("--into", "FILE", "where readings are kept"),
          option("--uphold", "ID", "a difference is settled: our answer stands"),
          option("--because", "TEXT", "with --uphold: what settles it")},
         {},
         run_library_reading},
        {"library",
         "items",
         "how each question has been answered, and which mislead good learners",
         {option("--topic", "NAME", "only this topic", true),
          option("--all", "", "every question, not only the flagged"),
          option("--matrix", "FILE", "answers from elsewhere instead: CSV, a column a question, a row a learner"),
          option("--slopes", "HOW", "one slope for all questions, or one each", false, {"one", "each"})},
         {},
         run_library_items},
        {"jurisdiction", "list", "the jurisdictions known, and their editions now", {}, {}, run_jurisdiction_list},
        {"jurisdiction",
         "show",
         "one jurisdiction and its adoptions",
         {},
         {{"ID", "its id", true, false, {}}},
         run_jurisdiction_show},
        {"jurisdiction",
         "changeover",
         "what differs between two editions or places, and who must learn it anew",
         {option("--dry-run", "", "only look: nothing is made due for the crew")},
         {{"FROM", "an edition, a jurisdiction, or JURISDICTION@DAY", true, false, {}},
          {"TO", "the same", true, false, {}}},
         run_jurisdiction_changeover},
        {"record",
         "export",
         "the answer log as JSON Lines",
         {option("--to", "FILE", "into a file instead of standard output")},
         {},
         run_record_export},
        {"record",
         "import",
         "take in an exported answer log; what is here already is passed over",
         {option("--dry-run", "", "only tell what would be taken in")},
         {{"FILE", "JSON Lines that 'record export' wrote", true, false, {}}},
         run_record_import},
        {"record",
         "merge",
         "bring home the answers of another machine's store, which is only read",
         {option("--dry-run", "", "only tell what would be taken in")},
         {{"FILE", "the other store, or a backup of it", true, false, {}}},
         run_record_merge},
        {"record", "verify", "check the store against itself", {}, {}, run_record_verify},
        {"record",
         "backup",
         "a sound copy of the store",
         {},
         {{"FILE", "a file that is not there yet", true, false, {}}},
         run_record_backup},
        {"record",
         "restore",
         "put a backup in the store's place; the old store is kept aside",
         {},
         {{"FILE", "the backup", true, false, {}}},
         run_record_restore},
        {"record", "rebuild", "fold the recall states anew from the log", {}, {}, run_record_rebuild},
        {"",
         "tune",
         "fit the recall model to the answer log, and tell how well it foresees",
         {option("--dry-run", "", "only look: the parameters stay as they are"),
          option("--as-shipped", "", "go back to the shipped parameters"),
          option("--plot", "FILE", "share right against chance foretold, as an SVG picture")},
         {},
         run_tune},
        {"",
         "forecast",
         "recall at given times from answer histories; JSON Lines in, JSON Lines out",
         {option("--as-shipped", "", "the shipped parameters alone: nothing is learned from the histories"),
          option("--score", "", "one line more: how well answers held back were foreseen")},
         {{"FILE", "the histories; standard input when left out or -", false, false, {}}},
         run_forecast},
        {"",
         "rehearse",
         "simulated learners under several ways of choosing what is asked",
         rehearse_options(),
         {},
         run_rehearse},
        {"exam",
         "outlines",
         "the exams there are to get ready for, or one of them section by section",
         {option("--edition", "YEAR", "count the points of this edition", false, kEditions)},
         {{"ID", "one outline", false, false, {}}},
         run_exam_outlines},
        {"exam",
         "readiness",
         "how likely you pass: today, and on the exam day at so many minutes a day",
         {option("--on", "DATE", "day of the exam, instead of the learner's"),
          option("--minutes", "N", "study this long a day, 1 to 240 (5, 10, 15, 20, 30)", true),
          option("--plot", "FILE", "chance to pass by minutes a day, as an SVG picture")},
         {{"ID", "the exam outline", false, false, {}}},
         run_exam_readiness},
        {"exam",
         "sit",
         "a mock exam against the clock; one that was begun goes on",
         {option("--questions", "N", "a shorter exam, divided as the outline is"),
          option("--edition", "YEAR", "under this edition, instead of the learner's", false, kEditions),
          option("--set-aside", "", "take an exam that was begun out of the way, without a result")},
         {{"ID", "the exam outline; not needed to go on", false, false, {}}},
         run_exam_sit},
        {"exam", "results", "the mock exams sat so far, and the sections that were red", {}, {}, run_exam_results},
        {"",
         "help",
         "suggests verbs and options by a word",
         {},
         {{"WORD", "what you have in mind; or the name of a verb", false, true, {}}},
         run_help},
        {"",
         "completion",
         "a completion script for a shell",
         {},
         {{"SHELL", "bash, zsh or fish", true, false, {"bash", "zsh", "fish"}}},
         run_completion},
    };
    add_calculators(verbs);
    return verbs;
}

}  // namespace

const std::vector<Verb>& verbs() {
    static const std::vector<Verb> kVerbs = make_verbs();
    return kVerbs;
}

std::vector<OptionSpec> Verb::all_options() const {
    std::vector<OptionSpec> all = options;
    if (more_options != nullptr)
        for (auto& one : more_options(*this)) all.push_back(std::move(one));
    return all;
}

const std::map<std::string, std::string>& groups() {
    static const std::map<std::string, std::string> kGroups = {
        {"crew", "who studies"},
        {"work", "one calculator on your own facts, with the steps"},
        {"library", "the points, questions and service calls"},
        {"week", "the article of the week"},
        {"meeting", "a shop meeting on paper"},
        {"jurisdiction", "where which edition is in force"},
        {"exam", "mock exams and how ready you are"},
        {"record", "the answer log and the store that keeps it"}};
    return kGroups;
}

const std::vector<OptionSpec>& global_options() {
    static const std::vector<OptionSpec> kGlobal = {
        option("--home", "DIR", "the data home (else GREENTAG_HOME, else the XDG data directory)"),
        option("--library", "DIR", "content of your own, laid over the shipped one", true),
        option("--learner", "NAME", "who is meant"),
        option("--now", "INSTANT", "pretend it is this moment (ISO 8601)"),
        option("--seed", "N", "make every draw repeatable"),
        option("--json", "", "one JSON document on standard output, nothing else there"),
        option("--color", "WHEN", "when to use color", false, {"auto", "always", "never"})};
    return kGlobal;
}

}  // namespace cli
