#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/fault.hpp"
#include "cli/verb.hpp"
#include "cli/world.hpp"
#include "content/library.hpp"
#include "practice/pick.hpp"
#include "report/style.hpp"
#include "store/store.hpp"

namespace cli {

/// What a verb works with: the world, what was typed, and the things opened from both.
/// Throws Failure where something asked for is not there; main's one catch turns that into words and a status.
class Context {
public:
    Context(const World& world, const Verb& verb, Values values)
        : world_{&world}, verb_{&verb}, values_{std::move(values)} {}

    [[nodiscard]] const World& world() const { return *world_; }
    [[nodiscard]] const Verb& verb() const { return *verb_; }
    [[nodiscard]] std::ostream& out() const { return *world_->out; }
    [[nodiscard]] std::ostream& err() const { return *world_->err; }

    [[nodiscard]] bool has(const std::string& name) const { return values_.contains(name); }
    /// The (last) value of an option or word; empty when it was not given.
    [[nodiscard]] std::string value(const std::string& name) const;
    [[nodiscard]] std::vector<std::string> values(const std::string& name) const;
    /// A whole number within limits. Throws Failure (usage) that names the option.
    [[nodiscard]] std::int64_t number(const std::string& name, std::int64_t otherwise, std::int64_t least,
                                      std::int64_t most) const;
    /// The same for an option that may be repeated; all that were given.
    [[nodiscard]] std::vector<std::int64_t> numbers(const std::string& name, std::int64_t least,
                                                    std::int64_t most) const;
    /// A day or instant. Throws Failure (usage).
    [[nodiscard]] std::optional<base::Instant> instant(const std::string& name) const;

    [[nodiscard]] bool json() const { return has("--json"); }
    /// --now, or the real clock.
    [[nodiscard]] base::Instant now() const;
    /// --seed, or fresh entropy.
    [[nodiscard]] base::Seed seed() const;
    [[nodiscard]] report::Page page() const;

    /// The data home; made when it is not there.
    [[nodiscard]] std::string home() const;
    [[nodiscard]] bool store_exists() const;
    [[nodiscard]] std::string store_path() const { return home() + "/greentag.db"; }
    /// The shipped content, the shop's own in the data home when there is some, then every --library.
    [[nodiscard]] std::vector<std::string> library_roots() const;
    /// The data home's path, whether it is there or not; empty where nothing says where it would be.
    [[nodiscard]] std::string home_path() const;

    [[nodiscard]] store::Store open_store(bool writes) const;
    /// Throws Failure (bad_data) after telling every fault on the error stream.
    [[nodiscard]] content::Library open_library() const;
    [[nodiscard]] content::Contents load_contents() const;
    /// Only the files of jurisdictions are read.
    [[nodiscard]] std::vector<content::Jurisdiction> load_jurisdictions() const;

    /// The learner meant: --learner by name or start of the id, else the only one there is.
    [[nodiscard]] store::Learner learner(store::Store& store) const;
    [[nodiscard]] practice::PickFor pick_for(const store::Learner& learner) const;

    /// Lines to standard output.
    void print(const std::vector<std::string>& lines) const;

private:
    [[nodiscard]] std::string environment(const std::string& name) const;

    const World* world_;
    const Verb* verb_;
    Values values_;
};

/// The learner of that name, of one of the words in it, or of an id that begins so. Throws Failure when there is none,
/// or more than one.
[[nodiscard]] store::Learner find_learner(const std::vector<store::Learner>& crew, const std::string& wanted);

/// The same, of those who have not left. Throws Failure (usage) for somebody who has.
[[nodiscard]] store::Learner find_present(const std::vector<store::Learner>& crew, const std::string& wanted);

/// Tells every fault on a stream, warnings included.
void tell(std::ostream& err, const base::Faults& faults);

/// Where the shipped content lies: beside an installed program, else in the checkout the program was built in.
[[nodiscard]] std::optional<std::string> find_content(const std::string& program);

}  // namespace cli
