#include "cli/exam/sitting_desk.hpp"

#include <charconv>
#include <ostream>

#include "base/text.hpp"
#include "cli/typed.hpp"
#include "report/exam/sitting_text.hpp"
#include "report/table.hpp"

namespace cli {
namespace {

using practice::Did;

// A pretended clock moves on by this for each line that comes from a pipe, so that scripted exams repeat exactly.
constexpr std::int64_t kPipedLineMs = 10'000;

std::optional<std::size_t> number_in(const std::string& word) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    if (error != std::errc{} || end != word.data() + word.size()) return std::nullopt;
    return number;
}

}  // namespace

const char* desk_help() {
    return "Type an answer, or ! when you do not know. Enter alone goes on; /back, /next and /12 go to an ask; /flag "
           "marks it to come back to, or takes the mark away; /clear takes an answer back; /all shows how everything "
           "stands; /hand-in ends the exam; /quit leaves, and the clock runs on.";
}

SittingDesk::SittingDesk(Context& context, practice::Sitting& sitting, const content::Outline& outline,
                         SittingFile& file)
    : context_{&context},
      sitting_{&sitting},
      outline_{&outline},
      file_{&file},
      clock_{context},
      to_{context.json() ? &context.err() : &context.out()} {}

void SittingDesk::show(const std::vector<std::string>& lines) {
    for (const auto& line : lines) *to_ << line << '\n';
    to_->flush();
}

void SittingDesk::say(const std::string& text) {
    std::vector<std::string> lines;
    report::add(lines, context_->page(), text, 2);
    show(lines);
}

void SittingDesk::show_ask() {
    *to_ << '\n';
    show(report::exam_ask_text(*sitting_, *outline_, place_, now(), context_->page()));
}

std::optional<std::string> SittingDesk::read(const std::string& prompt) {
    *to_ << "  " << prompt << " > " << std::flush;
    const auto begun = context_->world().clock();
    auto line = context_->world().input->line();
    const bool person = context_->world().input_is_terminal;
    if (!line || !person) *to_ << line.value_or("") << '\n';
    if (line) clock_.took(person ? (context_->world().clock() - begun).count() : kPipedLineMs);
    return line;
}

bool SittingDesk::run() {
    if (sitting_->over(now())) return true;
    if (sitting_->counts().answered > 0)
        go_to_open();
    else
        show_ask();
    for (;;) {
        const auto line = read("answer");
        if (sitting_->over(now())) {
            say("Time is up. What was answered before counts.");
            return true;
        }
        const Then then = line ? take(*line) : Then::left;
        if (then == Then::stay) continue;
        if (then == Then::left)
            say("The clock runs on: " + report::time_text(sitting_->time_left(now())) +
                " left. 'greentag exam sit' goes on where you were.");
        return then == Then::over;
    }
}

SittingDesk::Then SittingDesk::take(const std::string& line) {
    const std::string text{base::trim(line)};
    if (text.starts_with('/')) return command(base::lower(std::string_view{text}.substr(1)));
    const auto kind = parse_typed_line(text).kind;
    if (kind == TypedLine::Kind::leave) return Then::left;
    if (kind == TypedLine::Kind::empty)
        go((place_ + 1) % sitting_->size());
    else if (kind == TypedLine::Kind::look)
        say(desk_help());
    else
        answer(text);
    return Then::stay;
}

SittingDesk::Then SittingDesk::command(const std::string& word) {
    const std::size_t all = sitting_->size();
    if (word == "quit" || word == "q") return Then::left;
    if (word == "hand-in") return hand_in();
    const auto number = number_in(word);
    if (word == "next")
        go((place_ + 1) % all);
    else if (word == "back")
        go((place_ + all - 1) % all);
    else if (word == "all")
        show(report::exam_overview_text(*sitting_, *outline_, now(), context_->page()));
    else if (word == "flag") {
        const bool flagged = sitting_->state().asks[place_].flagged;
        if (keep(flagged ? Did::unflag : Did::flag)) say(flagged ? "Flag taken away." : "Flagged.");
    } else if (word == "clear") {
        if (keep(Did::answer)) say("No answer now.");
    } else if (number && *number >= 1 && *number <= all)
        go(*number - 1);
    else if (number)
        say("The exam has asks 1 to " + std::to_string(all) + ".");
    else
        say("'/" + word + "' is nothing that can be done here. " + desk_help());
    return Then::stay;
}

void SittingDesk::answer(const std::string& line) {
    const TypedLine typed = parse_typed_line(line);
    if (!typed.unread.empty()) {
        say("'/" + typed.unread + "' does not say how sure: /guess, /fairly or /sure.");
        return;
    }
    const bool not_known = typed.kind == TypedLine::Kind::give_up;
    if (keep(Did::answer, not_known ? "!" : typed.text, typed.sure.value_or(memory::Sure::fairly))) go_to_open();
}

/// Applied, then in the file, then seen. False when it was refused, and says why.
bool SittingDesk::keep(Did did, const std::string& given, memory::Sure sure) {
    practice::SittingEvent event;
    event.at = sitting_->clock(now());
    event.ask = place_;
    event.did = did;
    event.given = given;
    event.sure = sure;
    if (const auto done = sitting_->apply(event); !done) {
        say("Not kept: " + done.error().says + ".");
        return false;
    }
    file_->add(event);
    return true;
}

void SittingDesk::go(std::size_t place) {
    place_ = place;
    show_ask();
}

/// The next ask without an answer, around the end; when there is none, how everything stands.
void SittingDesk::go_to_open() {
    const std::size_t all = sitting_->size();
    for (std::size_t step = 1; step <= all; ++step) {
        const std::size_t place = (place_ + step) % all;
        if (sitting_->state().asks[place].answered()) continue;
        go(place);
        return;
    }
    *to_ << '\n';
    show(report::exam_overview_text(*sitting_, *outline_, now(), context_->page()));
    say("Everything has an answer. /hand-in ends the exam; a number such as /3 goes back to an ask.");
}

SittingDesk::Then SittingDesk::hand_in() {
    const auto counts = sitting_->counts();
    const std::size_t open = counts.asks - counts.answered;
    if (open > 0 || counts.flagged > 0) {
        say(std::to_string(open) + " without an answer, " + std::to_string(counts.flagged) + " flagged.");
        const auto line = read("hand in all the same? yes or no [no]");
        if (!line) return Then::left;
        const std::string word = base::lower(base::trim(*line));
        if (sitting_->over(now())) return Then::over;
        if (word != "yes" && word != "y") {
            say("Not handed in.");
            return Then::stay;
        }
    }
    return keep(Did::finish) ? Then::over : Then::stay;
}

}  // namespace cli
