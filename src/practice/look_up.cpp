#include "practice/look_up.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "content/look_up.hpp"
#include "memory/model.hpp"

namespace practice {
namespace {

constexpr double kMinute = 60.0;
constexpr double kWeightOfMinute = 5.0, kWeightOfOwn = 3.0;
// What an exam of 80 questions in four hours leaves for one of them is gone when the place is not found.
constexpr double kNotFound = 180.0;
constexpr double kRestDays = 4.0 / 24.0;

template <class T>
bool has_any(const std::vector<T>& list, const std::vector<T>& wanted) {
    return wanted.empty() || std::any_of(wanted.begin(), wanted.end(), [&](const T& one) {
               return std::find(list.begin(), list.end(), one) != list.end();
           });
}

bool found(const LookUp& one) {
    return one.mark >= memory::kRecalledFrom;
}

double seconds_of(const LookUp& one) {
    const double took = std::max(1.0, static_cast<double>(one.took_ms) / 1000.0);
    return found(one) ? took : std::max(took, kNotFound);
}

}  // namespace

std::optional<LookUp> look_up_in(const store::AnswerRecord& record) {
    auto point = content::looked_up(record.point);
    if (!point) return std::nullopt;
    return LookUp{std::move(*point), record.asked_at, record.took_ms, record.mark};
}

LookUpPicker::LookUpPicker(const content::Library& library, For what, const std::vector<LookUp>& before)
    : what_{std::move(what)} {
    for (const auto& entry : library.index().points) {
        if (!entry.editions.contains(what_.edition) || !has_any({entry.topic}, what_.topics)) continue;
        if (!has_any(entry.tags, what_.tags)) continue;
        const int article = content::article_to_find(*library.point(entry).version(what_.edition));
        if (article == 0) continue;
        places_[entry.id] = {&entry, article, 0, std::nullopt, false};
        ++articles_[article].places;
    }
    for (const auto& one : before) answered(one);
    latest_ = 0;
}

double LookUpPicker::overall() const {
    return std::exp((kWeightOfMinute * std::log(kMinute) + all_.logs) /
                    (kWeightOfMinute + static_cast<double>(all_.asked)));
}

double LookUpPicker::seconds(const Tally& tally) const {
    return std::exp((kWeightOfOwn * std::log(overall()) + tally.logs) /
                    (kWeightOfOwn + static_cast<double>(tally.asked)));
}

void LookUpPicker::answered(const LookUp& one) {
    const double log = std::log(seconds_of(one));
    const auto count = [&](Tally& tally) {
        ++tally.asked;
        tally.found += found(one) ? 1 : 0;
        tally.logs += log;
    };
    count(all_);
    const auto place = places_.find(one.point);
    if (place == places_.end()) return;
    count(articles_[place->second.article]);
    ++place->second.times;
    place->second.last = one.at;
    latest_ = place->second.article;
}

void LookUpPicker::passed_over(const base::PointId& point) {
    const auto place = places_.find(point);
    if (place != places_.end()) place->second.passed_over = true;
}

std::size_t LookUpPicker::times(const base::PointId& point) const {
    const auto place = places_.find(point);
    return place == places_.end() ? 0 : place->second.times;
}

const LookUpPicker::Place* LookUpPicker::place_in(int article, base::Instant now) const {
    const Place* best = nullptr;
    const auto lot = [&](const Place& one) { return base::derive_seed(what_.seed, one.entry->id.text); };
    for (const auto& [id, place] : places_) {
        if (place.article != article || place.passed_over) continue;
        if (place.last && std::abs(base::days_between(*place.last, now)) < kRestDays) continue;
        const bool earlier =
            best == nullptr || place.last < best->last || (place.last == best->last && lot(place) < lot(*best));
        if (earlier) best = &place;
    }
    return best;
}

const content::PointEntry* LookUpPicker::next(base::Instant now) {
    struct Ticket {
        const Place* place;
        double weight;
    };
    std::vector<Ticket> urn;
    double sum = 0.0;
    for (const auto& [article, tally] : articles_) {
        const auto* place = place_in(article, now);
        if (place == nullptr) continue;
        const double weight = std::sqrt(static_cast<double>(tally.places)) * std::pow(seconds(tally) / overall(), 2.0);
        urn.push_back({place, weight});
        sum += weight;
    }
    const auto just_asked =
        std::find_if(urn.begin(), urn.end(), [&](const Ticket& t) { return t.place->article == latest_; });
    if (urn.size() > 1 && just_asked != urn.end()) {
        sum -= just_asked->weight;
        urn.erase(just_asked);
    }
    if (urn.empty()) return nullptr;
    base::Random random{base::derive_seed(what_.seed, "look-up " + std::to_string(drawn_++))};
    double at = random.unit() * sum;
    for (const auto& ticket : urn) {
        at -= ticket.weight;
        if (at < 0.0) return ticket.place->entry;
    }
    return urn.back().place->entry;
}

LookUpFamily LookUpPicker::family_of(const base::PointId& point) const {
    const auto place = places_.find(point);
    if (place == places_.end()) return {};
    const auto& tally = articles_.at(place->second.article);
    return {place->second.article, tally.places, tally.asked, tally.found, seconds(tally)};
}

std::vector<LookUpFamily> LookUpPicker::families() const {
    std::vector<LookUpFamily> all;
    for (const auto& [article, tally] : articles_)
        if (tally.asked > 0) all.push_back({article, tally.places, tally.asked, tally.found, seconds(tally)});
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.seconds > b.seconds; });
    return all;
}

}  // namespace practice
