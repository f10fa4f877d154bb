#include "practice/crew_log.hpp"

#include <map>

#include "content/look_up.hpp"

namespace practice {
CrewLogReader::CrewLogReader(const content::Library& library, base::Instant now) : library_{&library}, now_{now} {
    std::map<std::string, std::uint32_t> families;
    for (const auto& entry : library.index().points) families.emplace(entry.topic, 0);
    for (auto& [topic, number] : families) {
        number = static_cast<std::uint32_t>(log_.families.size());
        log_.families.push_back(topic);
    }
    log_.families.emplace_back("no longer in the library");
    for (const auto& entry : library.index().points) {
        points_[entry.id] = static_cast<std::uint32_t>(log_.points.size());
        log_.points.push_back(entry.id);
        log_.family_of_point.push_back(families[entry.topic]);
    }
    log_.in_library = log_.points.size();
}

std::uint32_t CrewLogReader::learner(const base::Id128& id) {
    const auto [found, is_new] = learners_.try_emplace(id, static_cast<std::uint32_t>(log_.learners.size()));
    if (is_new) log_.learners.push_back(id);
    return found->second;
}

std::uint32_t CrewLogReader::point(const base::PointId& id) {
    const auto [found, is_new] = points_.try_emplace(id, static_cast<std::uint32_t>(log_.points.size()));
    if (is_new) {
        log_.points.push_back(id);
        log_.family_of_point.push_back(static_cast<std::uint32_t>(log_.families.size() - 1));
    }
    return found->second;
}

std::uint8_t CrewLogReader::form(const store::AnswerRecord& record) {
    // A question is named after its point; what is named otherwise was asked in a service call.
    const std::string own = record.point.text + "#";
    if (!record.question.text.starts_with(own)) return kCallForm;
    const auto [known, is_new] = forms_.try_emplace(record.question, std::uint8_t{0});
    const auto* entry = is_new ? library_->find(record.point) : nullptr;
    if (entry != nullptr)
        for (const auto& question : library_->point(*entry).questions)
            if (own + question.id == record.question.text) known->second = static_cast<std::uint8_t>(question.form);
    return known->second;
}

void CrewLogReader::add(const store::AnswerRecord& record) {
    if (content::looked_up(record.point)) return;  // says nothing of recall
    if (record.asked_at > now_) {
        ++log_.later;
        return;
    }
    memory::FitAnswer answer;
    answer.learner = learner(record.learner);
    answer.point = point(record.point);
    answer.form = form(record);
    answer.sure = record.sure;
    answer.mark = static_cast<float>(record.mark);
    answer.took_ms = record.took_ms;
    answer.at = record.asked_at;
    log_.removed += answer.point >= log_.in_library ? 1 : 0;
    log_.answers.push_back(answer);
}

}  // namespace practice
