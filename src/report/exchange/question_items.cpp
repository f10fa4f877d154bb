#include "report/exchange/question_items.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "base/quantity.hpp"
#include "report/exchange/item_xml.hpp"
#include "report/exchange/xml_writer.hpp"

namespace report {
namespace {

using content::Form;
using content::Point;
using content::Question;
using Attributes = XmlWriter::Attributes;

constexpr const char* kLanguage = "en-US";
constexpr std::size_t kMostOptions = 26;  // identifiers are single letters

std::string reason_to_leave_out(const Question& question, const content::Version& version, const ItemsFor& what) {
    if (interaction_of(question.form).empty())
        return "a question of the form " + std::string{to_text(question.form)} + " cannot be marked elsewhere as here";
    if (question.computed) return "its answer is worked out when it is posed";
    if (version.unverified && !what.unverified) return "not confirmed for the edition";
    if (question.form == Form::number && question.answer.unit == base::Unit::awg && question.answer.value < 1.0)
        return "sizes such as 1/0 AWG are no plain numbers";
    if (question.right.size() + question.wrong.size() > kMostOptions) return "it has more options than letters";
    return {};
}

/// The name, with a number behind it when another item has it already.
std::string unique_name(const std::string& wanted, std::set<std::string>& taken) {
    std::string name = wanted;
    for (int number = 2; !taken.insert(name).second; ++number) name = wanted + "-" + std::to_string(number);
    return name;
}

QuestionItem item_of(const ItemSource& source) {
    QuestionItem item;
    item.identifier = source.identifier;
    item.href = "items/" + source.identifier + ".xml";
    item.question = source.point->id.text + "#" + source.question->id;
    item.title = source.point->title + " (" + source.question->id + ")";
    item.topic = source.point->topic;
    item.article = source.version->article;
    item.interaction = std::string{interaction_of(source.question->form)};
    item.tags = source.point->tags;
    item.edition = source.edition;
    item.stakes = source.point->stakes;
    item.unverified = source.version->unverified;
    item.xml = item_xml(source);
    return item;
}

void add_point(QuestionItems& out, const Point& point, const content::Mistakes& mistakes, const ItemsFor& what,
               std::set<std::string>& taken) {
    const auto* version = point.version(what.edition);
    for (const auto& question : point.questions) {
        if (version == nullptr || !content::holds_in(question, point, what.edition)) continue;
        const auto why = reason_to_leave_out(question, *version, what);
        if (!why.empty()) {
            out.left_out.push_back({point.id.text + "#" + question.id, why});
            continue;
        }
        const auto name = xml_name(point.id.text) + "-" + xml_name(question.id) + "-" + trade::to_text(what.edition);
        out.items.push_back(
            item_of({unique_name(name, taken), &point, version, &question, &mistakes, what.edition, what.seed}));
    }
}

bool wanted(const std::string& topic, const ItemsFor& what) {
    return what.topics.empty() || std::find(what.topics.begin(), what.topics.end(), topic) != what.topics.end();
}

void lom_string(XmlWriter& xml, const std::string& element, const std::string& text) {
    xml.open(element);
    xml.leaf("lom:string", {{"language", kLanguage}}, text);
    xml.close();
}

std::vector<std::string> keywords(const QuestionItem& item) {
    std::vector<std::string> words = {"topic: " + item.topic, "edition: " + trade::to_text(item.edition),
                                      "stakes: " + std::string{content::to_text(item.stakes)},
                                      "article: " + item.article};
    if (item.unverified) words.emplace_back("not confirmed for this edition");
    for (const auto& tag : item.tags) words.push_back("tag: " + tag);
    return words;
}

void general_metadata(XmlWriter& xml, const QuestionItem& item) {
    xml.open("lom:general");
    xml.open("lom:identifier");
    xml.leaf("lom:catalog", "greentag");
    xml.leaf("lom:entry", item.question);
    xml.close();
    lom_string(xml, "lom:title", item.title);
    xml.leaf("lom:language", kLanguage);
    for (const auto& word : keywords(item)) lom_string(xml, "lom:keyword", word);
    xml.close();
}

void resource(XmlWriter& xml, const QuestionItem& item) {
    xml.open("resource", {{"identifier", item.identifier}, {"type", "imsqti_item_xmlv2p1"}, {"href", item.href}});
    xml.open("metadata");
    xml.open("lom:lom");
    general_metadata(xml, item);
    xml.open("lom:technical");
    xml.leaf("lom:format", "text/x-imsqti-item-xml");
    xml.close();
    xml.close();
    xml.open("imsqti:qtiMetadata");
    xml.leaf("imsqti:timeDependent", "false");
    xml.leaf("imsqti:interactionType", item.interaction);
    xml.leaf("imsqti:feedbackType", "nonadaptive");
    xml.leaf("imsqti:solutionAvailable", "true");
    xml.close();
    xml.close();
    xml.empty("file", {{"href", item.href}});
    xml.close();
}

void package_metadata(XmlWriter& xml, const QuestionItems& items) {
    xml.open("metadata");
    xml.leaf("schema", "QTIv2.1 Package");
    xml.leaf("schemaversion", "1.0.0");
    xml.open("lom:lom");
    xml.open("lom:general");
    lom_string(xml, "lom:title", "Greentag questions, " + trade::to_text(items.edition) + " edition");
    xml.leaf("lom:language", kLanguage);
    lom_string(xml, "lom:description",
               "A training aid: the adopted code, local amendments and the inspector decide. "
               "The code's own wording is not in here.");
    xml.close();
    xml.close();
    xml.close();
}

}  // namespace

QuestionItems question_items(const content::Contents& contents, const ItemsFor& what) {
    QuestionItems out;
    out.edition = what.edition;
    std::set<std::string> taken;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (wanted(point.topic, what)) add_point(out, point, deck.mistakes, what, taken);
    return out;
}

std::string items_manifest(const QuestionItems& items) {
    XmlWriter xml;
    xml.open("manifest", {{"xmlns", "http://www.imsglobal.org/xsd/imscp_v1p1"},
                          {"xmlns:lom", "http://ltsc.ieee.org/xsd/LOM"},
                          {"xmlns:imsqti", "http://www.imsglobal.org/xsd/imsqti_metadata_v2p1"},
                          {"identifier", "greentag-" + trade::to_text(items.edition)}});
    package_metadata(xml, items);
    xml.empty("organizations", {});
    xml.open("resources");
    for (const auto& item : items.items) resource(xml, item);
    xml.close();
    return xml.finish();
}

}  // namespace report
