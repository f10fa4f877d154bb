#include "content/index_cache.hpp"

#include <bit>
#include <cstring>
#include <type_traits>

namespace content {
namespace {

constexpr std::string_view kMagic = "greentag index 1\n";

// The checksum guards against cut and torn files, not against malice; eight bytes at a time keeps it off the
// start-up bill.
std::uint64_t checksum(std::string_view bytes) {
    std::uint64_t sum = bytes.size();
    const auto mix = [&sum](std::uint64_t word) {
        sum = (sum ^ word) * 0x9e3779b97f4a7c15U;
        sum ^= sum >> 29U;
    };
    std::uint64_t word = 0;
    for (; bytes.size() >= sizeof word; bytes.remove_prefix(sizeof word)) {
        std::memcpy(&word, bytes.data(), sizeof word);
        mix(word);
    }
    word = 0;
    std::memcpy(&word, bytes.data(), bytes.size());
    mix(word);
    return sum;
}

class Writer {
public:
    template <class T>
    void number(T value) {
        static_assert(std::is_integral_v<T>);
        for (std::size_t i = 0; i < sizeof(T); ++i)
            bytes_ += static_cast<char>((static_cast<std::uint64_t>(value) >> (8 * i)) & 0xffU);
    }
    void text(std::string_view value) {
        number(static_cast<std::uint32_t>(value.size()));
        bytes_ += value;
    }
    template <class T, class One>
    void list(const std::vector<T>& items, One one) {
        number(static_cast<std::uint32_t>(items.size()));
        for (const auto& item : items) one(item);
    }
    std::string bytes_;
};

/// Takes fields off the front; once the bytes run out, everything after is empty and good() is false.
class Taker {
public:
    explicit Taker(std::string_view bytes) : rest_{bytes} {}

    template <class T>
    T number() {
        static_assert(std::endian::native == std::endian::little, "the file's order of bytes is little-endian");
        T value{};
        if (!has(sizeof(T))) return value;
        std::memcpy(&value, rest_.data(), sizeof(T));
        rest_.remove_prefix(sizeof(T));
        return value;
    }
    std::string text() {
        const auto size = number<std::uint32_t>();
        if (!has(size)) return {};
        std::string value{rest_.substr(0, size)};
        rest_.remove_prefix(size);
        return value;
    }
    template <class T, class One>
    std::vector<T> list(One one) {
        const auto count = number<std::uint32_t>();
        std::vector<T> items;
        // Every item takes at least one byte, so a count beyond what is left is damage, not a reason to reserve.
        if (!has(count)) return items;
        items.reserve(count);
        for (std::uint32_t i = 0; i < count && good_; ++i) items.push_back(one());
        return items;
    }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool done() const { return rest_.empty(); }

private:
    bool has(std::size_t count) {
        good_ = good_ && rest_.size() >= count;
        return good_;
    }
    std::string_view rest_;
    bool good_ = true;
};

void put(Writer& out, const Slice& slice) {
    out.number(slice.file);
    out.number(slice.begin);
    out.number(slice.end);
}

Slice take_slice(Taker& in) {
    Slice slice;
    slice.file = in.number<std::uint32_t>();
    slice.begin = in.number<std::uint64_t>();
    slice.end = in.number<std::uint64_t>();
    return slice;
}

void put(Writer& out, const std::vector<std::string>& texts) {
    out.list(texts, [&](const std::string& t) { out.text(t); });
}
void put(Writer& out, const std::vector<base::PointId>& ids) {
    out.list(ids, [&](const base::PointId& id) { out.text(id.text); });
}
std::vector<std::string> take_texts(Taker& in) {
    return in.list<std::string>([&] { return in.text(); });
}
std::vector<base::PointId> take_ids(Taker& in) {
    return in.list<base::PointId>([&] { return base::PointId{in.text()}; });
}

void put(Writer& out, const SourceFile& file) {
    out.text(file.path);
    out.number(file.root);
    out.number(file.size);
    out.number(file.changed_ns);
}

SourceFile take_file(Taker& in) {
    SourceFile file;
    file.path = in.text();
    file.root = in.number<std::uint32_t>();
    file.size = in.number<std::uint64_t>();
    file.changed_ns = in.number<std::int64_t>();
    return file;
}

void put(Writer& out, const PointEntry& point) {
    out.text(point.id.text);
    out.text(point.deck);
    out.text(point.topic);
    out.number(static_cast<std::uint8_t>(point.stakes));
    out.number(point.editions.bits());
    put(out, point.tags);
    put(out, point.needs);
    put(out, point.at);
    put(out, point.mistakes);
}

PointEntry take_point(Taker& in) {
    PointEntry point;
    point.id.text = in.text();
    point.deck = in.text();
    point.topic = in.text();
    point.stakes = static_cast<Stakes>(in.number<std::uint8_t>());
    point.editions = EditionSet{in.number<std::uint8_t>()};
    point.tags = take_texts(in);
    point.needs = take_ids(in);
    point.at = take_slice(in);
    point.mistakes = take_slice(in);
    return point;
}

void put(Writer& out, const ScenarioEntry& scenario) {
    out.text(scenario.id);
    out.text(scenario.family);
    out.number(scenario.editions.bits());
    put(out, scenario.tags);
    put(out, scenario.points);
    put(out, scenario.at);
    put(out, scenario.mistakes);
}

ScenarioEntry take_scenario(Taker& in) {
    ScenarioEntry scenario;
    scenario.id = in.text();
    scenario.family = in.text();
    scenario.editions = EditionSet{in.number<std::uint8_t>()};
    scenario.tags = take_texts(in);
    scenario.points = take_ids(in);
    scenario.at = take_slice(in);
    scenario.mistakes = take_slice(in);
    return scenario;
}

bool slices_fit(const Index& index) {
    const auto fits = [&](const Slice& s) { return s.file < index.files.size() && s.begin <= s.end; };
    for (const auto& p : index.points)
        if (!fits(p.at) || !fits(p.mistakes)) return false;
    for (const auto& s : index.scenarios)
        if (!fits(s.at) || !fits(s.mistakes)) return false;
    return true;
}

}  // namespace

std::string to_bytes(const Index& index) {
    Writer out;
    out.bytes_ = kMagic;
    out.list(index.files, [&](const SourceFile& f) { put(out, f); });
    out.list(index.points, [&](const PointEntry& p) { put(out, p); });
    out.list(index.scenarios, [&](const ScenarioEntry& s) { put(out, s); });
    out.number(checksum(out.bytes_));
    return std::move(out.bytes_);
}

std::optional<Index> from_bytes(std::string_view bytes) {
    if (bytes.substr(0, kMagic.size()) != kMagic || bytes.size() < kMagic.size() + 8) return std::nullopt;
    Taker tail{bytes.substr(bytes.size() - 8)};
    if (tail.number<std::uint64_t>() != checksum(bytes.substr(0, bytes.size() - 8))) return std::nullopt;
    Taker in{bytes.substr(kMagic.size(), bytes.size() - kMagic.size() - 8)};
    Index index;
    index.files = in.list<SourceFile>([&] { return take_file(in); });
    index.points = in.list<PointEntry>([&] { return take_point(in); });
    index.scenarios = in.list<ScenarioEntry>([&] { return take_scenario(in); });
    if (!in.good() || !in.done() || !slices_fit(index)) return std::nullopt;
    return index;
}

}  // namespace content
