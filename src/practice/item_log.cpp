#include "practice/item_log.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "content/compose.hpp"
#include "content/look_up.hpp"

namespace practice {
namespace {

using content::Question;

constexpr std::size_t kMostWithErrors = 300;

bool has_fixed_options(const Question& question) {
    return question.form == content::Form::choose && !question.computed;
}

std::vector<std::string> options_of(const Question& question) {
    std::vector<std::string> options;
    if (!has_fixed_options(question)) return options;
    options.push_back(question.right.front());
    for (const auto& wrong : question.wrong) options.push_back(wrong.text);
    return options;
}

/// The place of the letter that was typed; nothing for any other answer.
std::optional<std::size_t> letter_given(const std::string& given) {
    const auto text = base::trim(given);
    if (text.size() != 1 || text.front() < 'a' || text.front() > 'z') return std::nullopt;
    return static_cast<std::size_t>(text.front() - 'a');
}

}  // namespace

const Question* ItemLogReader::authored(const store::AnswerRecord& record) const {
    const auto* entry = library_->find(record.point);
    const std::string own = record.point.text + "#";
    if (entry == nullptr || !record.question.text.starts_with(own)) return nullptr;
    for (const auto& question : library_->point(*entry).questions)
        if (own + question.id == record.question.text) return &question;
    return nullptr;
}

std::uint32_t ItemLogReader::item(const store::AnswerRecord& record) {
    const auto [found, is_new] = items_.try_emplace(record.question, static_cast<std::uint32_t>(log_.items.size()));
    if (!is_new) return found->second;
    Item item{record.question, record.point, {}, {}};
    if (const auto* entry = library_->find(record.point)) item.topic = entry->topic;
    if (const auto* question = authored(record)) item.options = options_of(*question);
    const auto count = static_cast<std::int32_t>(item.options.size());
    log_.keys.push_back({count, count > 0 ? 0 : -1});
    log_.items.push_back(std::move(item));
    return found->second;
}

std::int32_t ItemLogReader::choice(const store::AnswerRecord& record, const Item& item) {
    const auto place = letter_given(record.given);
    const auto edition = trade::parse_edition(std::to_string(record.edition));
    const auto* question = item.options.empty() || !place || !edition ? nullptr : authored(record);
    if (question == nullptr) return -1;
    const auto& entry = *library_->find(record.point);
    const auto fitting = content::questions_for(library_->point(entry), *edition);
    if (std::find(fitting.begin(), fitting.end(), question) == fitting.end()) return -1;
    const auto ask = content::compose(*library_, entry, *question, *edition, record.seed);
    if (ask.content != record.content || *place >= ask.options.size()) {
        ++log_.changed;
        return -1;
    }
    const auto at = std::find(item.options.begin(), item.options.end(), ask.options[*place].text);
    return at == item.options.end() ? -1 : static_cast<std::int32_t>(at - item.options.begin());
}

void ItemLogReader::add(const store::AnswerRecord& record) {
    if (content::looked_up(record.point)) return;  // no question of the library
    const auto learner =
        learners_.try_emplace(record.learner, static_cast<std::uint32_t>(learners_.size())).first->second;
    log_.learners = learners_.size();
    memory::ItemAnswer answer;
    answer.learner = learner;
    answer.item = item(record);
    answer.mark = record.mark;
    answer.choice = choice(record, log_.items[answer.item]);
    answer.took_ms = record.took_ms;
    log_.answers.push_back(answer);
}

ItemFigures item_figures(const ItemLog& log, memory::LogisticOptions options) {
    const memory::ResponseMatrix matrix{log.answers, log.learners, log.items.size()};
    options.errors = log.items.size() <= kMostWithErrors;
    ItemFigures figures;
    figures.counted = matrix.answers().size();
    figures.repeats = matrix.repeats();
    figures.summaries = memory::summarise(matrix, log.keys);
    figures.fitted = memory::fit_logistic(memory::patterns(matrix), matrix.items(), options);
    figures.flags = memory::flag_items(matrix, log.keys, figures.summaries);
    return figures;
}

}  // namespace practice
