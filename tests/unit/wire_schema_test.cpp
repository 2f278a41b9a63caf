// Schema files, decoder and describe() say the same.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "huewright/wire/bowl.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/checks_file.h"
#include "huewright/wire/colour.h"
#include "huewright/wire/deposit.h"
#include "huewright/wire/fade.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"
#include "support/reference.h"

namespace hw::wire {
namespace {

using nlohmann::json;

std::string fault_of(std::string_view schema, const std::string& text) {
  const auto say = [](const auto& decoded) {
    return decoded ? std::string() : one_line(decoded.error());
  };
  if (schema == "bowl") return say(decode<BowlRequest>(text));
  if (schema == "colour") return say(decode<ColourRequest>(text));
  if (schema == "lift") return say(decode<LiftRequest>(text));
  if (schema == "case") return say(decode<CaseFile>(text));
  if (schema == "checks") return say(decode<ChecksFile>(text));
  if (schema == "deposit") return say(decode<DepositRequest>(text));
  if (schema == "fade") return say(decode<FadeRequest>(text));
  if (schema == "shelf") return say(decode<ShelfFile>(text));
  return "no decoder for " + std::string(schema);
}

/// The same case with another kind of target.
std::string with_target(json whole, const char* key) {
  whole["target"] = {{key, {60, 9, 22}}};
  whole["zones"].erase(1);
  return whole.dump();
}

/// Requests that hold every key once (those that exclude each other aside).
const std::map<std::string, std::vector<std::string>, std::less<>>& full_requests() {
  static const std::string bowl =
      R"({"parts":[{"kind":"colour","grams":30,"peroxide_percent":6,"for_scalp":false}],
          "on_scalp":true})";
  // Zones and products that hold every key once; a ladder's ends are no rungs, so it is left out.
  static const json every = [] {
    json whole = json::parse(test::test_text("every_key_case.json"));
    whole.erase("ladder_lstar");
    return whole;
  }();
  static const std::string shelf = json{{"shelf", every["shelf"]}}.dump();
  static const std::string samples = R"({"start_nm":380,"step_nm":10,"values":[0.5,0.5]})";
  static const std::map<std::string, std::vector<std::string>, std::less<>> all{
      {"bowl", {bowl}},
      {"shelf", {shelf}},
      {"checks", {R"({"course":2,"readings":[{"minute":20,"zone":"roots","level":4,"tone":"orange",
            "lab":[30,12,16],"seen":"wet","stretch":"snaps","reader":"Ada","strand_test":true}]})"}},
      {"deposit",
       {R"({"hair":{"lab":[41,14,27],"strand_um":73,"opened":1.9,"wear":0.16,"white_percent":10},
            "class":"demi","colours":[{"grams":30,"level":5,"tone":"mahogany","words":"tube"},
            {"grams":20,"swatch":{"lab":[38,20,14],"base_lab":[70,1.5,15],"ingredients":["Aqua"]}}],
            "developer":{"grams":90,"peroxide_percent":1.9},"label_parts":1.5,"label_min":20,
            "minutes":20,"temperature_c":22,"grams_per_gram_hair":1.5,"water_held_g_per_g":0.3,
            "clean":false,"on_scalp":true,"every_min":5,"members":2,"seed":1})",
        R"({"hair":{"level":3,"strand_um":73},"class":"direct","colours":[{"grams":9,"level":5}],
            "minutes":20})",
        R"({"hair":{"lstar":30,"strand_um":73},"class":"direct","colours":[{"grams":9,"level":5}],
            "minutes":20})",
        R"({"hair":{"melanin_percent":1,"strand_um":73},"class":"direct",
            "colours":[{"grams":9,"level":5}],"minutes":20})"}},
      {"fade", {R"({"start":{"lab":[30,20,15]},"canvas":{"lab":[60,5,20]},"class":"demi",
            "family":"red","hair":"bleached","washes":12,"light_h":8,
            "wash":{"temperature_c":38,"ph":6,"hard":true}})"}},
      {"lift",
       {R"({"hair":{"level":3,"strand_um":73,"opened":1},"applications":[{"parts":[{"kind":"water",
            "grams":1}],"grams_per_gram_hair":3,"temperature_c":22,"minutes":30,"on_scalp":false,
            "covered":true,"water_held_g_per_g":0.3}],"every_min":10,"members":2,"seed":1})",
        R"({"hair":{"lstar":30,"strand_um":73},"applications":[{"parts":[{"kind":"water",
            "grams":1}],"minutes":30}]})",
        R"({"hair":{"melanin_percent":1,"strand_um":73},"applications":[{"parts":[{"kind":"water",
            "grams":1}],"minutes":30}]})"}},
      {"colour",
       {R"({"ask":"xyz","observer":"2deg","illuminant":"A","spectrum":)" + samples + "}",
        R"({"ask":"xyz","illuminant":)" + samples + R"(,"spectrum":)" + samples + "}",
        R"({"ask":"difference","pairs":[[[50,0,0],[51,1,1]]]})",
        R"({"ask":"tress","eumelanin_percent":1,"pheomelanin_percent":1,"warm_percent":1,
            "strand_um":70,"base":"white"})",
        R"({"ask":"screen","lab":[50,0,0],"space":"display-p3"})"}},
      {"case",
       {every.dump(), with_target(every, "lab"), with_target(every, "photo_lab"),
        with_target(every, "last_time_lab")}}};
  return all;
}

/// The branch of a oneOf that fits the request: the one whose "ask" it names, else the whole.
const json& branch(const json& schema, const json& request) {
  if (!schema.contains("oneOf") || schema.contains("properties")) return schema;
  for (const json& one : schema["oneOf"]) {
    if (one["properties"]["ask"]["const"] == request["ask"]) return one;
  }
  return schema;
}

/// Calls visit(schema node, place) for each value of a request that the schema describes.
template <class Visit>
void walk(const json& schema, const json& value, const json::json_pointer& place, Visit visit) {
  visit(schema, place);
  if (schema.contains("anyOf") && value.is_object()) {
    walk(schema["anyOf"][1], value, place, visit);
    return;
  }
  const json& here = branch(schema, value);
  if (value.is_object()) {
    for (const auto& [key, inner] : value.items()) {
      ASSERT_TRUE(here["properties"].contains(key)) << key;
      walk(here["properties"][key], inner, place / key, visit);
    }
  }
  if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      const bool tuple = here.contains("prefixItems");
      walk(tuple ? here["prefixItems"][i] : here["items"], value[i], place / i, visit);
    }
  }
}

TEST(WireSchema, files_are_what_the_decoder_is_made_from) {
  for (const SchemaEntry& entry : schemas()) {
    const std::string file = "../../schemas/" + std::string(entry.name) + ".schema.json";
    EXPECT_EQ(test::test_text(file), *schema_text(entry.name))
        << file << " is out of date: run "
        << "build/release/huewright schema " << entry.name << " and keep what it prints";
  }
  const std::string fault = one_line(schema_text("hair").error());
  EXPECT_THAT(fault, testing::StartsWith("schema: no input is called hair; give one of bowl, "));
  for (const SchemaEntry& entry : schemas()) {
    EXPECT_THAT(fault, testing::HasSubstr(std::string(entry.name)));
  }
}

TEST(WireSchema, full_requests_are_taken) {
  for (const SchemaEntry& entry : schemas()) {
    for (const std::string& text : full_requests().at(std::string(entry.name))) {
      EXPECT_EQ(fault_of(entry.name, text), "") << text;
    }
  }
}

/// What the decoder must refuse, by the schema's words on one value.
std::vector<json> beyond(const json& node) {
  std::vector<json> wrong;
  if (node.contains("minimum")) wrong.push_back(node["minimum"].get<double>() - 1);
  if (node.contains("exclusiveMinimum")) wrong.push_back(node["exclusiveMinimum"]);
  if (node.contains("maximum")) wrong.push_back(node["maximum"].get<double>() * 1.01 + 1);
  if (node.contains("maxLength")) {
    wrong.push_back(std::string(node["maxLength"].get<std::size_t>() + 1, 'x'));
  }
  if (node.contains("pattern")) wrong.push_back("2025-13-45T99:00+02:00");
  if (node.contains("enum") || node.contains("const")) wrong.push_back("no such word");
  if (node.contains("minItems") && node["minItems"] > 0) wrong.push_back(json::array());
  if (node.contains("type") && node["type"] == "integer") wrong.push_back(1.5);
  if (node.contains("type")) wrong.push_back(nullptr);
  return wrong;
}

TEST(WireSchema, the_decoder_refuses_what_the_schema_refuses) {
  std::size_t tried = 0;
  for (const SchemaEntry& entry : schemas()) {
    const json schema = json::parse(*schema_text(entry.name));
    for (const std::string& text : full_requests().at(std::string(entry.name))) {
      const json request = json::parse(text);
      walk(schema, request, json::json_pointer(), [&](const json& node, const auto& place) {
        for (const json& value : beyond(node)) {
          json changed = request;
          changed[place] = value;
          EXPECT_NE(fault_of(entry.name, changed.dump()), "") << place << ' ' << value;
          ++tried;
        }
        for (const char* bound : {"minimum", "maximum"}) {
          if (!node.contains(bound) || place.back() == "lstar") continue;
          json changed = request;
          changed[place] = node[bound];
          EXPECT_EQ(fault_of(entry.name, changed.dump()), "") << place << ' ' << node[bound];
        }
      });
    }
  }
  EXPECT_GT(tried, 200u);
}

TEST(WireSchema, the_decoder_asks_for_the_keys_the_schema_requires_and_for_no_other) {
  for (const SchemaEntry& entry : schemas()) {
    const json schema = json::parse(*schema_text(entry.name));
    for (const std::string& text : full_requests().at(std::string(entry.name))) {
      const json request = json::parse(text);
      walk(schema, request, json::json_pointer(), [&](const json& node, const auto& place) {
        if (!request[place].is_object()) return;
        const json& object = node.contains("anyOf") ? node["anyOf"][1] : branch(node, request);
        for (const auto& [key, value] : request[place].items()) {
          json changed = request;
          changed[place].erase(key);
          const json& required = object["required"];
          bool needed = std::find(required.begin(), required.end(), key) != required.end();
          for (const json& one : object.value("oneOf", json::array())) {
            needed = needed || one["required"][0] == key;
          }
          EXPECT_EQ(fault_of(entry.name, changed.dump()) != "", needed) << place << ' ' << key;
        }
        json changed = request;
        changed[place]["a_key_nobody_knows"] = 1;
        EXPECT_NE(fault_of(entry.name, changed.dump()), "");
        EXPECT_EQ(object["additionalProperties"], false);
      });
    }
  }
}

}  // namespace
}  // namespace hw::wire
