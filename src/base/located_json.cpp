#include "base/located_json.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <utility>

#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace base {
namespace {

using nlohmann::json;

// Our formats need fewer than ten levels; without a limit a hostile file could exhaust the stack.
constexpr std::size_t kDeepest = 64;

/// Feeds bytes to the parser and tells how many it has taken: the parser's own events carry no place.
class CountingIterator {
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, std::size_t* taken) : at_{at}, taken_{taken} {}
    reference operator*() const { return *at_; }
    CountingIterator& operator++() {
        ++at_;
        ++*taken_;
        return *this;
    }
    CountingIterator operator++(int) {
        CountingIterator before = *this;
        ++*this;
        return before;
    }
    friend bool operator==(const CountingIterator& a, const CountingIterator& b) { return a.at_ == b.at_; }
    friend bool operator!=(const CountingIterator& a, const CountingIterator& b) { return !(a == b); }

private:
    const char* at_;
    std::size_t* taken_;
};

/// Line numbers of byte positions that only ever grow.
class LineCounter {
public:
    explicit LineCounter(std::string_view text) : text_{text} {}
    int at(std::size_t position) {
        for (; seen_ < position && seen_ < text_.size(); ++seen_)
            if (text_[seen_] == '\n') ++line_;
        return line_;
    }

private:
    std::string_view text_;
    std::size_t seen_ = 0;
    int line_ = 1;
};

std::string escaped(std::string_view key) {
    std::string out;
    for (const char c : key) {
        if (c == '~')
            out += "~0";
        else if (c == '/')
            out += "~1";
        else
            out += c;
    }
    return out;
}

class Builder : public nlohmann::json_sax<json> {
public:
    Builder(std::string_view text, const std::size_t& taken, std::string file)
        : text_{text}, lines_{text}, taken_{&taken}, file_{std::move(file)} {}

    bool null() override { return put(nullptr); }
    bool boolean(bool value) override { return put(value); }
    bool number_integer(std::int64_t value) override { return put_number(static_cast<double>(value)); }
    bool number_unsigned(std::uint64_t value) override { return put_number(static_cast<double>(value)); }
    bool number_float(double value, const std::string& /*spelling*/) override { return put_number(value); }
    bool string(std::string& value) override { return put(std::move(value)); }
    bool binary(json::binary_t& /*value*/) override { return false; }
    bool start_object(std::size_t /*size*/) override { return open(Located::Members{}); }
    bool start_array(std::size_t /*size*/) override { return open(Located::List{}); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(std::string& name) override {
        const auto& members = std::get<Located::Members>(open_.back().node.value);
        const bool twice = std::any_of(members.begin(), members.end(), [&](const auto& m) { return m.first == name; });
        if (twice) {
            Fault fault;
            fault.file = file_;
            fault.line = line(1);
            fault.what = "the key \"" + name + "\" stands twice in one object";
            fault.mend = "keep one of the two";
            faults_.push_back(std::move(fault));
        }
        open_.back().key = name;
        return true;
    }

    bool parse_error(std::size_t /*position*/, const std::string& /*token*/, const json::exception& error) override {
        Fault fault;
        fault.file = file_;
        fault.line = line(1);
        fault.what = reason(error.what());
        fault.mend = "mend the JSON at this line; an editor that knows JSON shows the place";
        faults_.push_back(std::move(fault));
        return false;
    }

    [[nodiscard]] Checked<Located> result() && {
        if (!faults_.empty()) return tl::unexpected<Faults>{std::move(faults_)};
        return std::move(root_);
    }

private:
    struct Open {
        Located node;
        std::string key;
    };

    /// The library's own words without its error number and place, which we tell in our own way.
    static std::string reason(const std::string& given) {
        const auto colon = given.find(": ");
        const bool placed = colon != std::string::npos && given.find("at line") < colon;
        const auto number = given.find("] ");
        const std::size_t from = placed ? colon + 2 : number == std::string::npos ? 0 : number + 2;
        return "not valid JSON: " + well_formed(given.substr(from));
    }

    /// The library quotes what it read last, which may be half a character.
    static std::string well_formed(std::string text) {
        while (const auto bad = first_bad_utf8(text)) text[*bad] = '?';
        return text;
    }

    int line(std::size_t back) { return lines_.at(*taken_ > back ? *taken_ - back : 0); }

    /// A number is known to have ended only by the character after it, which may be on the next line. A document that
    /// is nothing but a number may have none after it.
    bool put_number(double value) {
        const bool at_end = *taken_ == text_.size() && std::isdigit(static_cast<unsigned char>(text_.back())) != 0;
        return put(value, at_end ? 1 : 2);
    }

    template <class T>
    bool put(T&& value, std::size_t back = 1) {
        Located node;
        node.line = line(back);
        node.value = std::forward<T>(value);
        attach(std::move(node));
        return true;
    }

    template <class T>
    bool open(T&& empty) {
        if (open_.size() >= kDeepest) return too_deep();
        Open opened;
        opened.node.line = line(1);
        opened.node.begin = *taken_ - 1;
        opened.node.value = std::forward<T>(empty);
        open_.push_back(std::move(opened));
        return true;
    }

    bool too_deep() {
        Fault fault;
        fault.file = file_;
        fault.line = line(1);
        fault.what = "lists and objects are nested more than " + std::to_string(kDeepest) + " deep";
        fault.mend = "no file of ours needs that; is this the right file?";
        faults_.push_back(std::move(fault));
        return false;
    }

    bool close() {
        Located node = std::move(open_.back().node);
        open_.pop_back();
        node.end = *taken_;
        attach(std::move(node));
        return true;
    }

    void attach(Located node) {
        if (open_.empty()) {
            root_ = std::move(node);
        } else if (auto* list = std::get_if<Located::List>(&open_.back().node.value)) {
            list->push_back(std::move(node));
        } else {
            std::get<Located::Members>(open_.back().node.value).emplace_back(open_.back().key, std::move(node));
        }
    }

    std::string_view text_;
    LineCounter lines_;
    const std::size_t* taken_;
    std::string file_;
    Faults faults_;
    std::vector<Open> open_;
    Located root_;
};

/// Stands for a member that is missing, which has been noted; there is nothing more to say about it.
const Located kNothing = [] {
    Located nothing;
    nothing.value = Located::Members{};
    return nothing;
}();

}  // namespace

Located::Located() = default;
Located::Located(const Located&) = default;
Located::Located(Located&&) noexcept = default;
Located& Located::operator=(const Located&) = default;
Located& Located::operator=(Located&&) noexcept = default;
Located::~Located() = default;

const Located* Located::find(std::string_view key) const {
    const auto* members = std::get_if<Members>(&value);
    if (members == nullptr) return nullptr;
    const auto found = std::find_if(members->begin(), members->end(), [&](const auto& m) { return m.first == key; });
    return found == members->end() ? nullptr : &found->second;
}

std::string_view Located::kind() const {
    static constexpr std::array<std::string_view, 6> kKinds = {"null", "true or false", "a number",
                                                               "text", "a list",        "an object"};
    return kKinds.at(value.index());
}

Checked<Located> parse_located(std::string_view text, const std::string& file) {
    std::size_t taken = 0;
    Builder builder{text, taken, file};
    json::sax_parse(CountingIterator{text.data(), &taken}, CountingIterator{text.data() + text.size(), &taken},
                    &builder);
    return std::move(builder).result();
}

bool Reader::has_text(std::string_view key) const {
    const Located* found = node_->find(key);
    return found != nullptr && std::holds_alternative<std::string>(found->value);
}

void Reader::note(std::string what, std::string mend, bool warning) const {
    if (node_ == &kNothing) return;
    faults_->push_back({file_, pointer_, node_->line, std::move(what), std::move(mend), warning});
}

void Reader::fault(std::string what, std::string mend) const {
    note(std::move(what), std::move(mend), false);
}
void Reader::warn(std::string what, std::string mend) const {
    note(std::move(what), std::move(mend), true);
}

Reader Reader::child(std::string_view key, const Located& node) const {
    return Reader{node, file_, pointer_ + "/" + escaped(key), *faults_};
}

const Located* Reader::need(std::string_view key) const {
    const Located* found = node_->find(key);
    if (found == nullptr && std::holds_alternative<Located::Members>(node_->value))
        fault("\"" + std::string{key} + "\" is missing", "add it");
    return found;
}

void Reader::only(const std::vector<std::string>& known) const {
    const auto* members = std::get_if<Located::Members>(&node_->value);
    if (members == nullptr) {
        fault("this should be an object but is " + std::string{node_->kind()}, "write { ... } here");
        return;
    }
    for (const auto& [key, value] : *members) {
        if (std::find(known.begin(), known.end(), key) != known.end()) continue;
        const auto near = nearest(key, known);
        child(key, value)
            .warn("unknown field \"" + key + "\"",
                  near ? "did you mean \"" + *near + "\"?" : "known here: " + join(known, ", "));
    }
}

std::string Reader::as_text() const {
    if (const auto* text = std::get_if<std::string>(&node_->value)) return *text;
    fault("this should be text but is " + std::string{node_->kind()}, "write it in double quotes");
    return {};
}

double Reader::as_number() const {
    if (const auto* number = std::get_if<double>(&node_->value)) return *number;
    fault("this should be a number but is " + std::string{node_->kind()}, "write a plain number, without quotes");
    return 0.0;
}

std::string Reader::text(std::string_view key) const {
    const Located* found = need(key);
    return found == nullptr ? std::string{} : child(key, *found).as_text();
}

std::string Reader::text_or(std::string_view key, std::string otherwise) const {
    const Located* found = node_->find(key);
    return found == nullptr ? std::move(otherwise) : child(key, *found).as_text();
}

double Reader::number(std::string_view key) const {
    const Located* found = need(key);
    return found == nullptr ? 0.0 : child(key, *found).as_number();
}

double Reader::number_or(std::string_view key, double otherwise) const {
    const Located* found = node_->find(key);
    return found == nullptr ? otherwise : child(key, *found).as_number();
}

bool Reader::flag_or(std::string_view key, bool otherwise) const {
    const Located* found = node_->find(key);
    if (found == nullptr) return otherwise;
    if (const auto* flag = std::get_if<bool>(&found->value)) return *flag;
    child(key, *found)
        .fault("this should be true or false but is " + std::string{found->kind()}, "write true or false");
    return otherwise;
}

std::vector<Reader> Reader::items(std::string_view key) const {
    return need(key) == nullptr ? std::vector<Reader>{} : items_or_none(key);
}

std::vector<Reader> Reader::items_or_none(std::string_view key) const {
    std::vector<Reader> readers;
    const Located* found = node_->find(key);
    if (found == nullptr) return readers;
    const Reader whole = child(key, *found);
    const auto* list = std::get_if<Located::List>(&found->value);
    if (list == nullptr) {
        whole.fault("this should be a list but is " + std::string{found->kind()}, "write [ ... ] here");
        return readers;
    }
    for (std::size_t i = 0; i < list->size(); ++i) readers.push_back(whole.child(std::to_string(i), (*list)[i]));
    return readers;
}

std::vector<std::string> Reader::texts(std::string_view key) const {
    return need(key) == nullptr ? std::vector<std::string>{} : texts_or_none(key);
}

std::vector<std::string> Reader::texts_or_none(std::string_view key) const {
    std::vector<std::string> out;
    for (const auto& item : items_or_none(key)) out.push_back(item.as_text());
    return out;
}

Reader Reader::member(std::string_view key) const {
    const Located* found = need(key);
    return child(key, found == nullptr ? kNothing : *found);
}

std::vector<std::pair<std::string, Reader>> Reader::members() const {
    std::vector<std::pair<std::string, Reader>> out;
    const auto* members = std::get_if<Located::Members>(&node_->value);
    if (members == nullptr) {
        fault("this should be an object but is " + std::string{node_->kind()}, "write { ... } here");
        return out;
    }
    for (const auto& [key, value] : *members) out.emplace_back(key, child(key, value));
    return out;
}

}  // namespace base
