#include "cli/study/study_lines.hpp"

#include <ostream>

#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/study/session_setup.hpp"
#include "report/session_json.hpp"

namespace cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

struct Incoming {
    practice::Reply reply;
    bool leaves = false;
    std::string fault;  ///< empty when the line could be read
};

void read_fields(const json& line, Incoming& incoming) {
    incoming.leaves = line.value("quit", false);
    if (incoming.leaves) return;
    incoming.reply.gave_up = line.value("gave_up", false);
    incoming.reply.looked_up = line.value("looked_up", false);
    incoming.reply.took_ms = std::max<std::int64_t>(0, line.value("took_ms", std::int64_t{0}));
    if (const auto sure = memory::parse_sure(line.value("sure", "fairly")))
        incoming.reply.sure = *sure;
    else
        incoming.fault = "\"sure\" is one of guess, fairly, sure";
    if (!incoming.reply.gave_up) incoming.reply.text = line.at("answer").get<std::string>();
}

Incoming read_line(const std::string& text) {
    Incoming incoming;
    const auto line = json::parse(text, nullptr, false);
    if (!line.is_object()) {
        incoming.fault = R"(not a JSON object; write {"answer": "b", "sure": "fairly", "took_ms": 9000})";
        return incoming;
    }
    try {
        read_fields(line, incoming);
    } catch (const json::exception& error) {
        incoming.fault = std::string{error.what()};
    }
    return incoming;
}

void put(std::ostream& out, const ordered_json& line) {
    out << line.dump(-1, ' ', false, json::error_handler_t::replace) << '\n' << std::flush;
}

ordered_json refused(std::size_t number, const std::string& what) {
    return {{"type", "result"},
            {"n", number},
            {"accepted", false},
            {"what", what},
            {"mend", "nothing was kept; the session goes on with another ask"}};
}

}  // namespace

base::Exit study_by_lines(Context& context, practice::Session& session) {
    SessionClock clock{context};
    auto& out = context.out();
    while (const auto posed = session.next(clock.now())) {
        put(out, report::ask_json(*posed, context.has("--reveal")));
        const auto text = context.world().input->line();
        if (!text) break;
        const Incoming incoming = read_line(*text);
        if (incoming.leaves) break;
        clock.took(incoming.reply.took_ms);
        if (!incoming.fault.empty()) {
            put(out, refused(posed->number, incoming.fault));
            continue;
        }
        const auto outcome = session.answer(incoming.reply, clock.now());
        put(out, outcome ? report::outcome_json(*outcome) : refused(posed->number, outcome.error()));
    }
    put(out, report::summary_json(session.summary(clock.now()), session.what()));
    return base::Exit::fine;
}

}  // namespace cli
