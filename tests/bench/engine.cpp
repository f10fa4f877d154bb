// Speed of the trade engine as ratios to a floor measured in the same run. Run by hand: see docs/quality.md. Nothing
// here is a test: it prints, and judges nothing.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "content/compose.hpp"
#include "content/library.hpp"
#include "content/trade_data.hpp"
#include "trade/work/calculator.hpp"

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t kCases = 200'000;
constexpr int kRounds = 3;

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

/// The shortest of a few rounds.
double best(const std::function<void()>& work) {
    double shortest = 1e300;
    for (int round = 0; round < kRounds; ++round) {
        const auto start = Clock::now();
        work();
        shortest = std::min(shortest, seconds_since(start));
    }
    return shortest;
}

/// The cases that the rules are held against in the tests, over and over: what is asked about as it comes up.
std::vector<std::string> lines_of_cases() {
    std::vector<std::string> once;
    for (const auto& entry : std::filesystem::directory_iterator(std::string{PROJECT_FOLDER} + "/tests/reference")) {
        if (!entry.path().filename().string().starts_with("rules_")) continue;
        std::ifstream in{entry.path()};
        const auto file = nlohmann::ordered_json::parse(in);
        for (const auto& one : file.at("cases")) {
            nlohmann::ordered_json line = {{"id", one.at("case")}, {"edition", one.at("edition")}};
            line.update(one.at("facts"));
            once.push_back(line.dump());
        }
    }
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < kCases; ++i) lines.push_back(once[i % once.size()]);
    std::printf("%zu different cases, every result asked for\n", once.size());
    return lines;
}

/// Says the facts of a line; "id" and "edition" are none.
trade::CaseFacts facts_of(const nlohmann::json& object, const trade::Vocabulary& vocabulary) {
    trade::CaseFacts facts{vocabulary};
    for (const auto& [name, value] : object.items()) {
        if (name == "id" || name == "edition") continue;
        (void)(value.is_string()    ? facts.set(name, std::string_view{value.get_ref<const std::string&>()})
               : value.is_boolean() ? facts.set(name, value.get<bool>())
                                    : facts.set(name, value.get<double>()));
    }
    return facts;
}

void bench_judging(const content::TradeData& data, const std::vector<std::string>& lines) {
    constexpr std::size_t kHeld = 2'000;  // so many fit in the processor's cache
    std::vector<trade::CaseFacts> cases;
    std::vector<std::size_t> editions;
    std::vector<const trade::RuleBook*> books;
    for (const auto edition : trade::kEditions) books.push_back(&data.book(edition));
    for (std::size_t i = 0; i < kHeld; ++i) {
        const auto object = nlohmann::json::parse(lines[i]);
        cases.push_back(facts_of(object, data.vocabulary()));
        const auto edition = trade::parse_edition(object.at("edition").get<std::string>()).value();
        editions.push_back(static_cast<std::size_t>(
            std::find(trade::kEditions.begin(), trade::kEditions.end(), edition) - trade::kEditions.begin()));
    }
    std::array<trade::Ruling, trade::kEditions.size()> rulings;
    std::size_t fired = 0;
    const double judged = best([&] {
        for (std::size_t i = 0; i < kCases; ++i) {
            auto& ruling = rulings.at(editions[i % kHeld]);
            books[editions[i % kHeld]]->judge(cases[i % kHeld], trade::kEveryResult, ruling);
            fired += ruling.fired.size();
        }
    });
    std::printf("require, judging alone       %10.0f cases/s (%zu rules fired)\n", static_cast<double>(kCases) / judged,
                fired / kRounds);
}

/// The floor: reading the same lines with the JSON library, and nothing else.
double floor_of(const std::vector<std::string>& lines) {
    std::size_t members = 0;
    const double floor = best([&] {
        for (const auto& line : lines) members += nlohmann::json::parse(line).size();
    });
    std::printf("floor, JSON parsing alone    %10.0f lines/s (%zu members)\n", static_cast<double>(kCases) / floor,
                members / kRounds);
    return floor;
}

void bench_batch(const std::vector<std::string>& lines, double floor) {
    const auto path = std::filesystem::temp_directory_path() / "greentag-bench-cases.jsonl";
    {
        std::ofstream out{path};
        for (const auto& line : lines) out << line << '\n';
    }
    const auto run = [&](const std::string& facts) {
        const std::string command =
            std::string{GREENTAG_BINARY} + " require --batch --edition 2023 --facts " + facts + " > /dev/null";
        if (std::system(command.c_str()) != 0) std::printf("the batch failed\n");
    };
    const double loading = best([&] { run("/dev/null"); });
    const double whole = best([&] { run(path.string()); });
    std::printf("require --batch, once loaded %10.0f cases/s, %.2f times the floor; loading %.1f ms\n",
                static_cast<double>(kCases) / (whole - loading), (whole - loading) / floor, loading * 1e3);
    std::filesystem::remove(path);
}

/// Facts of an ordinary job for each calculator, as they are typed.
const std::map<std::string, std::vector<std::pair<std::string, std::string>>>& ordinary_facts() {
    static const std::map<std::string, std::vector<std::pair<std::string, std::string>>> kFacts =
#include "bench/ordinary_facts.inc"
        ;
    return kFacts;
}

void bench_calculators(const content::TradeData& data) {
    constexpr int kTimes = 200'000;
    // The floor: the fact list of a calculator is looked up by name and copied, which any caller by name pays.
    for (const auto& calculator : trade::calculators()) {
        const auto found = ordinary_facts().find(std::string{calculator.name});
        if (found == ordinary_facts().end()) {
            std::printf("%-28s no ordinary facts\n", std::string{calculator.name}.c_str());
            continue;
        }
        trade::Facts facts;
        for (const auto& [name, text] : found->second)
            for (const auto& spec : calculator.facts)
                if (spec.name == name)
                    if (auto value = trade::parse_fact(spec, text)) facts.set(name, std::move(*value));
        const auto rate = [&](bool explain) {
            std::size_t answers = 0;
            const double took = best([&] {
                for (int i = 0; i < kTimes; ++i)
                    answers += calculator.run(facts, {trade::Edition::e2023, &data.tables(), explain}).answer ? 1U : 0U;
            });
            if (answers != static_cast<std::size_t>(kTimes) * kRounds)
                std::printf("%s has no answer\n", std::string{calculator.name}.c_str());
            return kTimes / took;
        };
        const double floor = best([&] {
            std::size_t held = 0;
            for (int i = 0; i < kTimes; ++i) {
                const trade::Facts copy = facts;
                held += copy.all().size();
            }
            if (held == 0) std::printf("nothing held\n");
        });
        std::printf("%-18s %10.0f/s, with steps %9.0f/s, floor (copying the facts) %10.0f/s\n",
                    std::string{calculator.name}.c_str(), rate(false), rate(true), kTimes / floor);
    }
}

void bench_composing(const content::Library& library) {
    std::vector<double> micros;
    std::size_t computed = 0;
    for (const auto& entry : library.index().scenarios) {
        const bool any =
            std::ranges::any_of(library.scenario(entry).asks, [](const auto& ask) { return ask.computed != nullptr; });
        if (!any) continue;
        ++computed;
        for (const auto edition : trade::kEditions) {
            if (!entry.editions.contains(edition)) continue;
            (void)content::compose_scenario(library, entry, edition, 1);
            for (base::Seed seed = 1; seed <= 200; ++seed) {
                const auto start = Clock::now();
                const auto asks = content::compose_scenario(library, entry, edition, seed);
                if (!asks.empty()) micros.push_back(seconds_since(start) * 1e6 / static_cast<double>(asks.size()));
            }
        }
    }
    if (micros.empty()) return;
    std::sort(micros.begin(), micros.end());
    std::printf("composing an ask: median %.1f us, nine in ten under %.1f us (%zu computed calls)\n",
                micros[micros.size() / 2], micros[micros.size() * 9 / 10], computed);
}

}  // namespace

int main() {
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const auto data = content::load_trade_data(std::vector<std::string>{PROJECT_FOLDER});
    const auto library = content::open_library({PROJECT_FOLDER}, "");
    if (!data || !library) {
        std::printf("the content has faults\n");
        return 1;
    }
    const auto lines = lines_of_cases();
    const double floor = floor_of(lines);
    bench_judging(*data, lines);
    bench_batch(lines, floor);
    bench_calculators(*data);
    bench_composing(*library);
    return 0;
}
