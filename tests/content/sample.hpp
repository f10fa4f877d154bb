#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "content/contents.hpp"

/// A small library without a fault, and ways to spoil it.
namespace sample {

inline const std::string kDeck = R"json({
  "format": "greentag-deck/1",
  "deck": "boxes",
  "title": "Boxes",
  "topic": "boxes",
  "mistakes": {
    "m.hidden": "Thinks a hidden box is fine; it has to stay reachable.",
    "m.shallow": "Read the row of the shallower box.",
    "m.other": "Names another section.",
    "m.early": "Opens before it is dead.",
    "m.glue": "Glues it shut."
  },
  "points": [
    {
      "id": "box.accessible",
      "title": "Boxes stay reachable",
      "stakes": "fire",
      "tags": ["box", "rough-in"],
      "versions": [
        {
          "editions": "2017-2023",
          "article": "314.29",
          "says": "A box stays reachable.",
          "basis": {"kind": "published", "source": "A magazine, on boxes"}
        },
        {
          "editions": "2026",
          "article": "Article 314",
          "says": "A box stays reachable.",
          "basis": {"kind": "memory"},
          "unverified": true
        }
      ],
      "questions": [
        {"id": "a", "form": "choose", "text": "May a box vanish behind new drywall?",
          "right": "No, it stays reachable for good",
          "wrong": [
            {"text": "Yes, once it has been inspected", "mistake": "m.hidden"},
            {"text": "Yes, if a map of it is kept in the panel", "mistake": "m.hidden"}
          ],
          "why": "Joints fail, and then somebody has to reach them."
        },
        {"id": "b", "form": "choose-all", "text": "Which of these places will do for a junction box?",
          "right": ["Above a lift-out ceiling tile", "Behind a blank cover in a wall"],
          "wrong": [{"text": "Under glued tile", "mistake": "m.glue"}]
        },
        {"id": "c", "form": "article", "text": "Where does the code ask that boxes stay reachable?",
          "editions": "2017-2023",
          "enough": "314.29",
          "mistakes": [{"article": "314.25", "mistake": "m.other"}]
        }
      ]
    },
    {
      "id": "box.volume",
      "title": "What a box holds",
      "stakes": "inspection",
      "tags": ["box"],
      "needs": ["box.accessible"],
      "caution": "Dead first.",
      "versions": [
        {
          "editions": "2020-2026",
          "article": "314.16(A)",
                         "says" : "Standard boxes have a volume by table.", "basis" : {
    "kind" : "practice"
}
}
      ],
      "gaps": [{"editions": "2017", "why": "Left out on purpose."}],
      "questions": [
        {"id": "a", "form": "number", "text": "How much room does a 12 AWG conductor take?",
          "answer": {"value": 2.25, "unit": "in3", "within": 0.01},
          "mistakes": [{"value": 2.0, "mistake": "m.shallow"}],
          "check": {"lookup": "box-volume", "row": {"size": 12}, "column": "volume"}
        },
        {"id": "b", "form": "number", "text": "Four 12 AWG and clamps: what volume is filled?",
          "answer": {"value": 11.25, "unit": "in3"},
          "mistakes": [],
          "check": {"calculate": "box-fill", "facts": {
            "conductors": [{"size": "12", "count": 4}], "devices": [],
            "clamps": true, "grounds": []
          }}
        },
        {"id": "c", "form": "order", "text": "Put the steps of opening an old box into order.",
          "steps": ["Lock out", "Prove dead", "Open", "Look"],
          "mistakes": [{"before": 2, "after": 3, "mistake": "m.early"}]
        },
        {"id": "d", "form": "recall", "text": "Name what makes a splice in a plain wall unsafe.",
          "answer": "heat and no box",
          "ideas": [
            {"idea": "heat", "words": ["heat", "hot"]},
            {"idea": "enclosure", "words": ["box", "enclos"]}
          ],
          "mistakes": [{"words": ["glue"], "mistake": "m.glue"}]
        }
      ]
      }
  ]
  }
)json";

inline const std::string kTable = R"json({
  "format": "greentag-table/1",
  "table": "box-volume",
  "title": "Volume per conductor",
  "article": "314.16(B)",
  "editions": "2017-2026",
  "basis": {"kind": "published", "source": "A page on boxes"},
  "keys": ["size"],
  "columns": {"volume": "in3"},
  "rows": [
    {"size": "14", "volume": 2.0},
    {"size": "12", "volume": 2.25, "basis": {"kind": "memory"}}
  ]
}
)json";

inline const std::string kCalls = R"json({
  "format": "greentag-scenarios/1",
  "family": "box-calls",
  "title": "Calls about boxes",
  "mistakes": {"m.late": "Comes too late."},
  "scenarios": [
    {
      "id": "call.attic",
      "title": "A warm ceiling",
      "tags": ["box"],
      "editions": "2020-2023",
      "story": "{customer} called about a warm spot in the {room}.",
      "facts": {
        "customer": "Mrs. Hale",
        "room": {"choices": ["hall", "den", "attic"]}
      },
      "asks": [
        {"id": "a", "point": "box.accessible", "form": "choose", "text": "The {room} ceiling hides a splice. What now?",
          "right": "Give the {room} a reachable box",
          "wrong": [
            {"text": "Close the {room} ceiling again", "mistake": "m.late"},
            {"text": "Tape it better and leave it there", "mistake": "m.late"}
          ]
        },
        {"id": "b", "point": "box.volume", "form": "number", "text": "You find two 14 AWG there. How much do both take?",
          "answer": {"value": 4, "unit": "in3"},
          "mistakes": [{"value": 4.5, "mistake": "m.late"}],
          "basis": {"kind": "practice"}
        },
        {"id": "c", "point": "box.accessible", "form": "recall", "text": "Tell {customer} in one word what was wrong.",
          "answer": "hidden",
          "ideas": [{"idea": "hidden", "words": ["hid", "buried"]}]
        }
      ]
    }
  ]
}
)json";

inline const std::string kPlaces = R"json({
  "format": "greentag-jurisdictions/1",
  "jurisdictions": [
    {
      "id": "alder",
      "name": "Alder",
      "basis": {"kind": "practice"},
      "adoptions": [
        {"edition": "2017", "from": "2018-07-01"},
        {"edition": "2020", "from": "2021-07-01"}
      ]
    }
  ]
}
)json";

/// The first `from` turned into `to`. An empty text comes of a `from` that does not stand there.
[[nodiscard]] inline std::string spoiled(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    return at == std::string::npos ? std::string{} : text.replace(at, from.size(), to);
}

/// A folder of content that is gone again when it goes out of scope.
class Folder {
public:
    explicit Folder(const std::string& name)
        : path_{std::filesystem::temp_directory_path() / ("greentag-test-" + name)} {
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_ / "decks");
        std::filesystem::create_directories(path_ / "scenarios");
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }

    void write(const std::string& file, const std::string& text) const {
        std::ofstream{path_ / file, std::ios::binary} << text;
    }
    void write_sample() const {
        write("decks/boxes.json", kDeck);
        write("decks/volume.json", kTable);
        write("decks/places.json", kPlaces);
        write("scenarios/calls.json", kCalls);
    }
    [[nodiscard]] std::string path() const { return path_.string(); }
    [[nodiscard]] std::string in(const std::string& file) const { return (path_ / file).string(); }

private:
    std::filesystem::path path_;
};

/// The sample with one of its documents put in another's place.
[[nodiscard]] inline content::Contents contents(const std::string& deck = kDeck, const std::string& calls = kCalls,
                                                const std::string& table = kTable,
                                                const std::string& places = kPlaces) {
    content::Contents contents;
    const std::vector<std::pair<std::string, std::string>> documents = {
        {"deck.json", deck}, {"calls.json", calls}, {"table.json", table}, {"places.json", places}};
    for (const auto& [name, text] : documents) content::add_document(contents, text, {name, 0, text.size(), 0});
    return contents;
}

}  // namespace sample
