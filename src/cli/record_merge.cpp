#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <ostream>
#include <system_error>
#include <utility>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/place_aside.hpp"
#include "memory/model.hpp"
#include "report/style.hpp"
#include "store/other_store.hpp"
#include "store/read_log.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using What = store::CrewDifference::What;
namespace fs = std::filesystem;

/// Clocks of two machines differ; by more than this, one of them is wrong.
constexpr std::chrono::hours kClocksApart{1};

/// What was taken in, and where the store as it was before is kept; empty where there was nothing to keep.
struct Outcome {
    store::TakenIn taken;
    std::string before;
};

std::string text_of(const std::string& path) {
    std::error_code error;
    std::ifstream in{path, std::ios::binary};
    if (!in || fs::is_directory(path, error))
        throw Failure{Exit::no_input, path + ": cannot be read", "name a file that 'greentag record export' wrote"};
    std::string text{std::istreambuf_iterator<char>{in}, {}};
    if (in.bad()) throw Failure{Exit::io_error, path + ": could not be read to its end", "nothing was taken in"};
    return text;
}

template <class T>
T good(const Context& context, const std::string& path, base::Checked<T> checked) {
    if (checked) return std::move(*checked);
    tell(context.err(), checked.error());
    throw Failure{Exit::bad_data, path + ": nothing was taken in, the store is as it was",
                  "mend the places named above"};
}

/// A copy of the store that is gone again unless it turns out to be wanted.
class Before {
public:
    Before(const Context& context, store::Store& store)
        : path_{place_aside(context.store_path(), base::date_text(context.now()))} {
        store.backup_to(path_);
    }
    Before(const Before&) = delete;
    Before& operator=(const Before&) = delete;
    ~Before() {
        std::error_code error;
        if (!kept_) fs::remove(path_, error);
    }
    std::string keep() {
        kept_ = true;
        return path_;
    }

private:
    std::string path_;
    bool kept_ = false;
};

/// The store to look into: none is made for a file that is then refused.
store::Store to_look_into(const Context& context) {
    const bool there = context.store_exists();
    const bool writes = !there || !context.has("--dry-run");
    return store::Store{{there ? context.store_path() : ":memory:", writes, memory::advance, context.world().entropy}};
}

Outcome bring_in(const Context& context, const store::LogPart& part) {
    auto would = good(context, part.file, to_look_into(context).would_take_in(part));
    if (context.has("--dry-run") || !would.anything()) return {std::move(would), {}};
    auto store = context.open_store(true);
    // The log is append-only: what should not have been taken in can only be left behind by going back.
    if (store.answer_count() == 0) return {good(context, part.file, store.take_in(part)), {}};
    Before before{context, store};
    auto taken = good(context, part.file, store.take_in(part));
    return {std::move(taken), before.keep()};
}

ordered_json difference_json(const store::CrewDifference& one) {
    return {{"learner", base::to_text(one.learner)},
            {"name", one.name},
            {"what", store::to_text(one.what)},
            {"here", one.here},
            {"there", one.there},
            {"taken", one.taken}};
}

void print_json(const Context& context, const std::string& file, const Outcome& outcome) {
    const auto& taken = outcome.taken;
    ordered_json added = ordered_json::array(), told = ordered_json::array();
    for (const auto& one : taken.added) added.push_back({{"id", base::to_text(one.id)}, {"name", one.name}});
    for (const auto& one : taken.told) told.push_back(difference_json(one));
    context.out() << ordered_json{{"ok", true},
                                  {"file", file},
                                  {"written", !context.has("--dry-run") && taken.anything()},
                                  {"answers", taken.answers},
                                  {"new", taken.fresh},
                                  {"relearn", taken.relearn},
                                  {"added", added},
                                  {"differences", told},
                                  {"before",
                                   outcome.before.empty() ? ordered_json(nullptr) : ordered_json(outcome.before)}}
                         .dump(2)
                  << '\n';
}

std::string difference_text(const store::CrewDifference& one) {
    if (one.what == What::same_name)
        return "Two learners are called " + one.name + ", and are kept apart:\n  " + one.here + " was here, " +
               one.there + " came.\n  Tell them apart: greentag crew set " + one.there + " --name NAME";
    return one.name + ", " + std::string{store::to_text(one.what)} + ": here " + one.here + ", there " + one.there +
           (one.taken ? "; taken from there" : "; left as it is here");
}

void print_text(const Context& context, const std::string& file, const Outcome& outcome) {
    const auto& taken = outcome.taken;
    const auto count = [](std::int64_t number, const char* what) {
        return report::counted(static_cast<std::size_t>(number), what);
    };
    auto& out = context.out();
    if (context.has("--dry-run")) out << "Only looked: nothing is written.\n";
    out << count(taken.answers, "answer") << " in " << file << ": " << taken.fresh << " new, "
        << taken.answers - taken.fresh << " here already\n";
    for (const auto& one : taken.added) out << "New in the crew: " << one.name << '\n';
    if (taken.relearn > 0) out << "Due because they have changed: " << count(taken.relearn, "point") << '\n';
    for (const auto& one : taken.told) out << difference_text(one) << '\n';
    if (taken.latest && *taken.latest > context.now() + kClocksApart)
        out << "The last answer is of " << base::date_text(*taken.latest)
            << ", which is still to come: is that machine's clock right?\n";
    if (!outcome.before.empty())
        out << "The store before is kept at " << outcome.before << "\n  to go back: greentag record restore "
            << outcome.before << '\n';
}

Exit take_in(const Context& context, const store::LogPart& part) {
    const auto outcome = bring_in(context, part);
    if (context.json())
        print_json(context, part.file, outcome);
    else
        print_text(context, part.file, outcome);
    return Exit::fine;
}

}  // namespace

Exit run_record_import(Context& context) {
    const std::string file = context.value("FILE");
    return take_in(context, good(context, file, store::read_log(text_of(file), file)));
}

Exit run_record_merge(Context& context) {
    const std::string file = context.value("FILE");
    std::error_code error;
    if (fs::equivalent(file, context.store_path(), error))
        throw Failure{Exit::usage, file + ": is this store itself", "name the store of the other machine"};
    return take_in(context, store::read_other_store(file));
}

}  // namespace cli
