#include "cli/study/study_screen.hpp"

#include <ostream>

#include <nlohmann/json.hpp>

#include "cli/study/session_setup.hpp"
#include "cli/typed.hpp"
#include "content/ask.hpp"
#include "report/look_up_text.hpp"
#include "report/session_json.hpp"
#include "report/session_text.hpp"

namespace cli {
namespace {

using practice::Posed;
using practice::Reply;

// A pretended clock moves on by this for each answer that comes from a pipe, so that scripted sessions repeat exactly.
constexpr std::int64_t kPipedAnswerMs = 10'000;
constexpr std::size_t kPlayedAsks = 8;

enum class Next { answered, skipped, left };

/// Answers for a demonstration that nobody sits at: mostly right, sometimes sure and wrong.
class Player {
public:
    [[nodiscard]] static std::string answer(const Posed& posed) {
        const auto& ask = posed.ask;
        const bool wrong = posed.number % 4 == 2 && !ask.options.empty();
        if (!wrong) return content::right_answer(ask) + (posed.number % 3 == 0 ? " /sure" : " /fairly");
        const bool first_is_right = content::right_answer(ask).front() == 'a';
        if (ask.question.form == content::Form::order)
            return std::string{"abcdefgh"}.substr(0, ask.options.size()) + " /sure";
        return std::string{first_is_right ? "b" : "a"} + " /sure";
    }
};

/// One session between a person (or a pipe) and the engine.
class Screen {
public:
    Screen(Context& context, practice::Session& session)
        : context_{&context},
          session_{&session},
          clock_{context},
          to_{context.json() ? &context.err() : &context.out()},
          plays_{context.has("--demo") && !context.world().input_is_terminal} {}

    base::Exit run() {
        show(session_->look_ups() != nullptr
                 ? report::look_up_opening(session_->what(), *session_->look_ups(), context_->page())
                 : report::opening_text(session_->what(), session_->standing(clock_.now()), context_->page()));
        std::string call;
        while (auto posed = played_out() ? std::nullopt : session_->next(clock_.now())) {
            posed_ = true;
            show(report::ask_text(*posed, !posed->ask.call.empty() && posed->ask.call != call, context_->page()));
            call = posed->ask.call;
            if (take_answer(*posed) == Next::left) break;
        }
        return close();
    }

private:
    [[nodiscard]] bool played_out() const { return plays_ && answered_ >= kPlayedAsks; }
    [[nodiscard]] bool person() const { return context_->world().input_is_terminal; }

    void show(const std::vector<std::string>& lines) {
        for (const auto& line : lines) *to_ << line << '\n';
        to_->flush();
    }
    void say(const std::string& text, std::size_t indent = 2) {
        std::vector<std::string> lines;
        report::add(lines, context_->page(), text, indent);
        show(lines);
    }
    void prompt(const std::string& text) { *to_ << text << std::flush; }

    std::optional<std::string> read(const Posed& posed) {
        if (!plays_) return context_->world().input->line();
        std::string typed = Player::answer(posed);
        *to_ << typed << '\n';
        return typed;
    }

    /// Asks until there is an answer, a wish to leave, or (from a pipe) one line that was none.
    Next take_answer(const Posed& posed) {
        const auto begun = context_->world().clock();
        Reply reply;
        for (;;) {
            prompt("  " + practice::answer_hint(posed.ask) + " > ");
            const auto line = read(posed);
            if (!line) return leave();
            if (!person() && !plays_) *to_ << *line << '\n';
            const TypedLine typed = parse_typed_line(*line);
            if (typed.kind == TypedLine::Kind::leave) return Next::left;
            if (typed.kind == TypedLine::Kind::look) {
                reply.looked_up = true;
                say(report::look_hint(posed.ask));
                continue;
            }
            reply.gave_up = typed.kind == TypedLine::Kind::give_up;
            reply.text = typed.text;
            if (const auto refused = refusal(posed, typed)) {
                say(*refused);
                if (person()) continue;
                return Next::skipped;
            }
            if (!sure_of(typed, reply)) return leave();
            reply.took_ms = took(begun);
            return keep(reply);
        }
    }

    [[nodiscard]] static std::optional<std::string> refusal(const Posed& posed, const TypedLine& typed) {
        if (typed.kind == TypedLine::Kind::give_up) return std::nullopt;
        const auto marked = practice::mark(posed.ask, typed.text);
        if (marked) return std::nullopt;
        if (!typed.unread.empty()) return "'/" + typed.unread + "' does not say how sure: /guess, /fairly or /sure.";
        return "Not read as an answer: " + marked.error() + ".";
    }

    /// Fills in how sure the learner is. False when the person broke off.
    bool sure_of(const TypedLine& typed, Reply& reply) {
        if (typed.sure) reply.sure = *typed.sure;
        // With the book open the answer is there to be read.
        if (typed.sure || reply.gave_up || !person() || session_->look_ups() != nullptr) return true;
        for (;;) {
            prompt("  sure? guess, fairly or sure [f] > ");
            const auto line = context_->world().input->line();
            if (!line || parse_typed_line(*line).kind == TypedLine::Kind::leave) return false;
            if (line->empty()) return true;
            if (const auto sure = parse_sure_word(*line)) {
                reply.sure = *sure;
                return true;
            }
            say("Say g for a guess, f for fairly, s for sure; empty is fairly.", 4);
        }
    }

    [[nodiscard]] std::int64_t took(base::Instant begun) const {
        if (clock_.pretended() && !person()) return kPipedAnswerMs;
        return (context_->world().clock() - begun).count();
    }

    Next keep(const Reply& reply) {
        clock_.took(reply.took_ms);
        const auto outcome = session_->answer(reply, clock_.now());
        if (!outcome) {
            say(outcome.error());
            return Next::skipped;
        }
        ++answered_;
        show(report::outcome_text(*outcome, context_->page()));
        return Next::answered;
    }

    Next leave() {
        *to_ << '\n';
        return Next::left;
    }

    base::Exit close() {
        const auto summary = session_->summary(clock_.now());
        show(session_->look_ups() != nullptr
                 ? report::look_up_summary(summary, session_->what(), posed_, context_->page())
                 : report::summary_text(summary, session_->what(), context_->page()));
        if (!context_->json()) return base::Exit::fine;
        nlohmann::ordered_json asks = nlohmann::ordered_json::array();
        for (const auto& outcome : summary.outcomes)
            asks.push_back({{"ask", report::ask_json(outcome.posed, true)}, {"result", report::outcome_json(outcome)}});
        const nlohmann::ordered_json document = {
            {"ok", true}, {"asks", asks}, {"summary", report::summary_json(summary, session_->what())}};
        context_->out() << document.dump(2) << '\n';
        return base::Exit::fine;
    }

    Context* context_;
    practice::Session* session_;
    SessionClock clock_;
    std::ostream* to_;
    bool plays_;
    bool posed_ = false;
    std::size_t answered_ = 0;
};

}  // namespace

base::Exit study_on_screen(Context& context, practice::Session& session) {
    return Screen{context, session}.run();
}

}  // namespace cli
