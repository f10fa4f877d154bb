#include "content/read/read_phrases.hpp"

#include "base/text.hpp"
#include "content/read/read_question.hpp"

namespace content {

std::vector<StockPhrase> read_phrases(const base::Reader& document) {
    document.only({"format", "phrases"});
    std::vector<StockPhrase> phrases;
    for (const auto& item : document.items("phrases")) {
        item.only({"text", "reason"});
        StockPhrase phrase{item.text("text"), item.text("reason"), place_of(item)};
        if (item.has_text("text") && base::words(phrase.text).size() < 2)
            item.member("text").fault("one word is no phrase", "write two words or more");
        if (item.has_text("reason") && base::trim(phrase.reason).empty())
            item.member("reason").fault("no reason is given", "say why anybody would put it so");
        phrases.push_back(std::move(phrase));
    }
    return phrases;
}

}  // namespace content
