// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/scene_file.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <fstream>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "io/drawing/cannot_draw.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::json;

// Long lists go as they lie in memory; the file is read by the program that wrote it.
static_assert(sizeof(Vec3) == 3 * sizeof(double) && sizeof(Segment) == 6 * sizeof(double));

template <class T>
Json blob(const T* data, std::size_t n) {
  std::vector<std::uint8_t> bytes(n * sizeof(T));
  if (n > 0) std::memcpy(bytes.data(), data, bytes.size());
  return Json::binary(std::move(bytes));
}

template <class T>
Json blob(const std::vector<T>& list) {
  return blob(list.data(), list.size());
}

template <class T>
std::vector<T> list_in(const Json& json) {
  const std::vector<std::uint8_t>& bytes = json.get_binary();
  std::vector<T> list(bytes.size() / sizeof(T));
  if (!list.empty()) std::memcpy(static_cast<void*>(list.data()), bytes.data(), list.size() * sizeof(T));
  return list;
}

Json point(const Vec3& p) {
  return {p.x(), p.y(), p.z()};
}
Vec3 point_in(const Json& json) {
  return {json.at(0).get<double>(), json.at(1).get<double>(), json.at(2).get<double>()};
}

}  // namespace

void to_json(Json& json, const ValueSurface& s) {
  json = {{"points", blob(s.points)}, {"values", blob(s.values)}, {"triangles", blob(s.triangles)}};
}
void from_json(const Json& json, ValueSurface& s) {
  s = {list_in<Vec3>(json.at("points")), list_in<double>(json.at("values")),
       list_in<std::array<int, 3>>(json.at("triangles"))};
}

void to_json(Json& json, const SceneLines& l) {
  json = {{"segments", blob(l.segments)}, {"grey", l.grey}, {"width", l.width_pt}, {"lift", l.lift_mm}};
}
void from_json(const Json& json, SceneLines& l) {
  l = {list_in<Segment>(json.at("segments")), json.at("grey"), json.at("width"), json.at("lift")};
}

void to_json(Json& json, const SceneMark& m) {
  json = {{"at", point(m.at)}, {"text", m.text}, {"ring", m.ring}};
}
void from_json(const Json& json, SceneMark& m) {
  m = {point_in(json.at("at")), json.at("text"), json.at("ring")};
}

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SceneSurface, surface, coloured, lit, grey)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ScaleMark, value, text, drawn_on_body)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SceneScale, title, highest, clipped, low_is_strong, marks)

void to_json(Json& json, const SceneSide& s) {
  json = {{"towards", point(s.towards)}, {"letter", s.letter}};
}
void from_json(const Json& json, SceneSide& s) {
  s = {point_in(json.at("towards")), json.at("letter")};
}

void to_json(Json& json, const SceneView& v) {
  json = {{"caption", v.caption}, {"surfaces", v.surfaces}, {"lines", v.lines}, {"marks", v.marks},
          {"sides", v.sides},     {"shown", blob(v.shown)}, {"layers", Json()}, {"eye", point(v.towards_eye)},
          {"up", point(v.up)}};
  if (v.layer_normal) json["layers"] = point(*v.layer_normal);
}
void from_json(const Json& json, SceneView& v) {
  v = {.caption = json.at("caption"),
       .surfaces = json.at("surfaces"),
       .lines = json.at("lines"),
       .marks = json.at("marks"),
       .sides = json.at("sides"),
       .shown = list_in<Vec3>(json.at("shown")),
       .towards_eye = point_in(json.at("eye")),
       .up = point_in(json.at("up"))};
  if (!json.at("layers").is_null()) v.layer_normal = point_in(json.at("layers"));
}

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Scene, title, subtitle, note, caution, scale, views)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PictureWishes, quantity, format, dpi)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Picture, file, wishes, scene)

std::string packed(const Picture& picture) {
  std::string bytes;
  Json::to_cbor(picture, bytes);
  return bytes;
}

void for_each_picture(const std::filesystem::path& file, const std::function<void(const Picture&)>& work) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw CannotDraw(fmt::format("'{}' cannot be read.", file.string()));
  while (in.peek() != std::ifstream::traits_type::eof()) {
    Picture picture;
    try {
      constexpr bool to_the_end = false;
      picture = Json::from_cbor(in, to_the_end).get<Picture>();
    } catch (const Json::exception&) {
      throw CannotDraw(fmt::format("'{}' is damaged.", file.string()));
    }
    work(picture);
  }
}

}  // namespace crownproof
