#include "report/exchange/item_xml.hpp"

#include <algorithm>

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "content/compose.hpp"
#include "report/exchange/xml_writer.hpp"
#include "report/source_text.hpp"

namespace report {
namespace {

using content::Form;
using content::Option;
using content::Question;
using Attributes = XmlWriter::Attributes;

// Names of the standard's variables and of our feedback.
constexpr std::string_view kResponse = "RESPONSE", kScore = "SCORE", kFeedback = "FEEDBACK";
constexpr std::string_view kWhy = "WHY", kMisplaced = "MISPLACED";
constexpr std::string_view kNamespace = "http://www.imsglobal.org/xsd/imsqti_v2p1";
constexpr std::string_view kMatchCorrect = "http://www.imsglobal.org/question/qti_v2p1/rptemplates/match_correct";
// What a number may be off when nothing is stated: the width of rounding, not of knowledge.
constexpr double kLeastWithin = 1e-6;
constexpr int kPlaces = 9;

std::string identifier_at(std::size_t position) {
    return std::string(1, static_cast<char>('A' + position));
}

std::string wrong_number_id(std::size_t position) {
    return "N" + std::to_string(position + 1);
}

/// One item on its way into XML.
class Item {
public:
    explicit Item(const ItemSource& source)
        : source_{source}, question_{*source.question}, options_{item_options(question_, source.seed)} {}

    std::string write() {
        open();
        declare_response();
        declare_outcomes();
        body();
        processing();
        explanation();
        mistakes();
        return xml_.finish();
    }

private:
    void open() {
        xml_.open("assessmentItem",
                  {{"xmlns", std::string{kNamespace}},
                   {"xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance"},
                   {"xsi:schemaLocation",
                    std::string{kNamespace} + " http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd"},
                   {"identifier", source_.identifier},
                   {"title", source_.point->title + " (" + question_.id + ")"},
                   {"adaptive", "false"},
                   {"timeDependent", "false"},
                   {"xml:lang", "en-US"}});
    }

    std::vector<std::string> right_values() const {
        if (question_.form == Form::number) return {base::number_text(question_.answer.value, kPlaces)};
        std::vector<std::string> values;
        if (question_.form == Form::order) {
            for (std::size_t step = 1; step <= options_.size(); ++step)
                for (std::size_t i = 0; i < options_.size(); ++i)
                    if (options_[i].step == static_cast<int>(step)) values.push_back(identifier_at(i));
            return values;
        }
        for (std::size_t i = 0; i < options_.size(); ++i)
            if (options_[i].right) values.push_back(identifier_at(i));
        return values;
    }

    void declare_response() {
        const std::string cardinality = question_.form == Form::order        ? "ordered"
                                        : question_.form == Form::choose_all ? "multiple"
                                                                             : "single";
        xml_.open("responseDeclaration", {{"identifier", std::string{kResponse}},
                                          {"cardinality", cardinality},
                                          {"baseType", question_.form == Form::number ? "float" : "identifier"}});
        xml_.open("correctResponse");
        for (const auto& value : right_values()) xml_.leaf("value", value);
        xml_.close();
        xml_.close();
    }

    void declare_outcomes() {
        xml_.open("outcomeDeclaration", {{"identifier", std::string{kScore}},
                                         {"cardinality", "single"},
                                         {"baseType", "float"},
                                         {"normalMaximum", "1"}});
        xml_.open("defaultValue");
        xml_.leaf("value", "0");
        xml_.close();
        xml_.close();
        xml_.empty("outcomeDeclaration",
                   {{"identifier", std::string{kFeedback}}, {"cardinality", "multiple"}, {"baseType", "identifier"}});
    }

    void body() {
        xml_.open("itemBody");
        xml_.leaf("p", "Under the " + trade::to_text(source_.edition) + " edition of the code:");
        if (question_.form == Form::number)
            number_body();
        else
            options_body();
        xml_.close();
    }

    void number_body() {
        const std::string unit{base::spoken(question_.answer.unit)};
        xml_.leaf("p", question_.text);
        xml_.open("p");
        xml_.text(unit.empty() ? "Answer with a number: " : "Answer with a number, in " + unit + ": ");
        xml_.empty("textEntryInteraction", {{"responseIdentifier", std::string{kResponse}}, {"expectedLength", "10"}});
        xml_.close();
    }

    void options_body() {
        Attributes attributes = {{"responseIdentifier", std::string{kResponse}}, {"shuffle", "true"}};
        if (question_.form == Form::choose) attributes.emplace_back("maxChoices", "1");
        if (question_.form == Form::choose_all) attributes.emplace_back("maxChoices", "0");  // 0: as many as one likes
        xml_.open(std::string{interaction_of(question_.form)}, attributes);
        xml_.leaf("prompt", question_.text);
        for (std::size_t i = 0; i < options_.size(); ++i)
            xml_.leaf("simpleChoice", {{"identifier", identifier_at(i)}}, options_[i].text);
        xml_.close();
    }

    // The rules do what the template does and tell which feedback is shown besides. A platform that knows templates
    // alone still scores the item; one that runs rules prefers them to the template, as the standard says.
    void processing() {
        Attributes attributes;
        if (question_.form != Form::number) attributes.emplace_back("template", std::string{kMatchCorrect});
        xml_.open("responseProcessing", attributes);
        xml_.open("responseCondition");
        xml_.open("responseIf");
        if (question_.form == Form::number)
            near(question_.answer.value);
        else
            matches();
        score("1");
        if (question_.form == Form::order) feedback({kWhy});
        xml_.close();
        if (question_.form == Form::number) wrong_numbers();
        xml_.open("responseElse");
        score("0");
        if (question_.form == Form::order) feedback({kWhy, kMisplaced});
        xml_.close();
        xml_.close();
        if (question_.form == Form::choose || question_.form == Form::choose_all) feedback_for_choices();
        if (question_.form == Form::number) feedback_for_number();
        xml_.close();
    }

    void variable(std::string_view name) { xml_.empty("variable", {{"identifier", std::string{name}}}); }
    void named(std::string_view value) { xml_.leaf("baseValue", {{"baseType", "identifier"}}, value); }

    void matches() {
        xml_.open("match");
        variable(kResponse);
        xml_.empty("correct", {{"identifier", std::string{kResponse}}});
        xml_.close();
    }

    void near(double value) {
        const auto within = base::number_text(std::max(question_.within, kLeastWithin), kPlaces);
        xml_.open("equal", {{"toleranceMode", "absolute"}, {"tolerance", within + " " + within}});
        variable(kResponse);
        xml_.leaf("baseValue", {{"baseType", "float"}}, base::number_text(value, kPlaces));
        xml_.close();
    }

    void score(const std::string& value) {
        xml_.open("setOutcomeValue", {{"identifier", std::string{kScore}}});
        xml_.leaf("baseValue", {{"baseType", "float"}}, value);
        xml_.close();
    }

    void feedback(const std::vector<std::string_view>& names) {
        open_feedback();
        for (const auto name : names) named(name);
        close_feedback();
    }

    void open_feedback() {
        xml_.open("setOutcomeValue", {{"identifier", std::string{kFeedback}}});
        xml_.open("multiple");
    }
    void close_feedback() {
        xml_.close();
        xml_.close();
    }

    /// The choices that were made are the names of their own feedback.
    void feedback_for_choices() {
        open_feedback();
        named(kWhy);
        variable(kResponse);
        close_feedback();
    }

    void wrong_numbers() {
        for (std::size_t i = 0; i < question_.wrong_numbers.size(); ++i) {
            xml_.open("responseElseIf");
            near(question_.wrong_numbers[i].value);
            score("0");
            feedback({wrong_number_id(i)});
            xml_.close();
        }
    }

    void feedback_for_number() {
        open_feedback();
        named(kWhy);
        variable(kFeedback);
        close_feedback();
    }

    void open_modal(std::string_view name) {
        xml_.open(
            "modalFeedback",
            {{"outcomeIdentifier", std::string{kFeedback}}, {"showHide", "show"}, {"identifier", std::string{name}}});
    }

    std::string right_in_words() const {
        if (question_.form == Form::number) return base::to_text(question_.answer);
        return base::join(question_.right, question_.form == Form::order ? "; then: " : "; and: ");
    }

    void explanation() {
        const auto& version = *source_.version;
        open_modal(kWhy);
        xml_.leaf("p", "Right: " + right_in_words());
        if (!question_.why.empty()) xml_.leaf("p", question_.why);
        const auto [label, source] = source_text(version, source_.edition);
        xml_.leaf("p", label + ": " + source + ", in our words: " + version.says);
        if (version.unverified)
            xml_.leaf("p", "Not confirmed for this edition: look it up in your own book before you rely on it.");
        const auto& own = source_.point->caution;
        const auto caution = own.empty() ? content::usual_caution(source_.point->stakes) : own;
        if (!caution.empty()) xml_.leaf("p", "Before hands go in: " + caution);
        xml_.close();
    }

    std::string line_of(const std::string& mistake) const {
        const auto found = source_.mistakes->find(mistake);
        return found == source_.mistakes->end() ? "This is not right." : found->second;
    }

    void mistake(const std::string& name, const std::string& given, const std::string& id) {
        open_modal(name);
        xml_.leaf("p", given + ": " + line_of(id));
        xml_.close();
    }

    void mistakes() {
        for (std::size_t i = 0; i < options_.size(); ++i)
            if (question_.form != Form::order && !options_[i].right)
                mistake(identifier_at(i), options_[i].text, options_[i].mistake);
        for (std::size_t i = 0; i < question_.wrong_numbers.size(); ++i)
            mistake(wrong_number_id(i), base::to_text({question_.wrong_numbers[i].value, question_.answer.unit}),
                    question_.wrong_numbers[i].mistake);
        if (question_.form == Form::order) order_mistakes();
    }

    /// The standard has no simple way to ask which of two steps came first, so a wrong order shows every mistake.
    void order_mistakes() {
        open_modal(kMisplaced);
        xml_.leaf("p", "The order was not right. What goes wrong when steps change places:");
        std::vector<std::string> told;
        for (const auto& wrong : question_.wrong_orders) {
            if (std::find(told.begin(), told.end(), wrong.mistake) != told.end()) continue;
            told.push_back(wrong.mistake);
            xml_.leaf("p", line_of(wrong.mistake));
        }
        xml_.close();
    }

    const ItemSource& source_;
    const Question& question_;
    std::vector<Option> options_;
    XmlWriter xml_;
};

}  // namespace

std::string_view interaction_of(Form form) {
    switch (form) {
        case Form::choose:
        case Form::choose_all:
            return "choiceInteraction";
        case Form::order:
            return "orderInteraction";
        case Form::number:
            return "textEntryInteraction";
        case Form::article:
        case Form::recall:
            return {};
    }
    return {};
}

std::vector<Option> item_options(const Question& question, base::Seed seed) {
    std::vector<Option> options;
    if (question.form == Form::order) {
        for (std::size_t i = 0; i < question.right.size(); ++i)
            options.push_back({question.right[i], false, static_cast<int>(i + 1), ""});
    } else if (question.form == Form::choose || question.form == Form::choose_all) {
        for (const auto& text : question.right) options.push_back({text, true, 0, ""});
        for (const auto& wrong : question.wrong) options.push_back({wrong.text, false, 0, wrong.mistake});
    }
    const auto in_order = [&] {
        return std::is_sorted(options.begin(), options.end(),
                              [](const Option& a, const Option& b) { return a.step < b.step; });
    };
    base::Random random{base::derive_seed(seed, question.point.text + "#" + question.id)};
    random.shuffle(options);
    // Steps in their right order would give the answer away on a platform that does not shuffle.
    while (question.form == Form::order && options.size() > 1 && in_order()) random.shuffle(options);
    return options;
}

std::string item_xml(const ItemSource& source) {
    return Item{source}.write();
}

}  // namespace report
