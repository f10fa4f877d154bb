#include "store/log_lines.hpp"

#include <nlohmann/json.hpp>

namespace store {

std::string to_line(const AnswerRecord& record, const std::string& learner_name) {
    const nlohmann::ordered_json line = {{"format", "greentag-answer/1"},
                                         {"id", base::to_text(record.id)},
                                         {"learner", base::to_text(record.learner)},
                                         {"name", learner_name},
                                         {"point", record.point.text},
                                         {"question", record.question.text},
                                         {"content", record.content},
                                         {"seed", record.seed},
                                         {"edition", record.edition},
                                         {"jurisdiction", record.jurisdiction},
                                         {"setting", to_text(record.setting)},
                                         {"asked_at", base::to_text(record.asked_at)},
                                         {"took_ms", record.took_ms},
                                         {"mark", record.mark},
                                         {"sure", memory::to_text(record.sure)},
                                         {"given", record.given},
                                         {"device", base::to_text(record.device)}};
    // What a learner typed may hold bytes that are no UTF-8; they are kept in the store and shown replaced here.
    return line.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace store
