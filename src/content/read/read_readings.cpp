#include "content/read/read_readings.hpp"

#include "content/read/read_question.hpp"

namespace content {

std::vector<Reading> read_readings(const base::Reader& document) {
    document.only({"format", "reader", "readings"});
    const std::string reader = document.text("reader");
    std::vector<Reading> readings;
    for (const auto& item : document.items("readings")) {
        item.only({"question", "edition", "content", "differed", "settled"});
        Reading one;
        one.place = place_of(item);
        one.reader = reader;
        one.question = item.text("question");
        one.content = item.text("content");
        one.agreed_first = !item.flag_or("differed", false);
        one.settled = item.text_or("settled", "");
        const auto edition = trade::parse_edition(item.text("edition"));
        if (edition)
            one.edition = *edition;
        else if (item.has_text("edition"))
            item.member("edition").fault("this is no edition", "write \"2017\", \"2020\", \"2023\" or \"2026\"");
        readings.push_back(std::move(one));
    }
    return readings;
}

}  // namespace content
