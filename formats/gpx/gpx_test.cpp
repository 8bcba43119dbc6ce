#include "formats/gpx/gpx.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "core/base/clock.h"
#include "core/base/random.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

using testing::HasSubstr;

std::string gpx(const std::string& body, const std::string& version = "1.1") {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"" + version +
         "\" xmlns=\"http://www.topografix.com/GPX/1/" + version.substr(2) + "\">\n" + body + "</gpx>\n";
}
std::string track(const std::string& points) { return "<trk><name>T</name><trkseg>\n" + points + "</trkseg></trk>\n"; }

GpxDocument read(const std::string& bytes) {
  const auto document = read_gpx(bytes, "a.gpx");
  EXPECT_TRUE(document) << (document ? "" : document.error().where + ": " + document.error().what);
  return document.value_or(GpxDocument{});
}
std::string message(const Problem& p) { return p.where + ": " + p.what; }
std::string refusal(const std::string& bytes) {
  const auto document = read_gpx(bytes, "a.gpx");
  EXPECT_FALSE(document);
  return document ? "" : message(document.error());
}
std::string warning(const GpxDocument& document, std::size_t i = 0) {
  return i < document.warnings.size() ? document.warnings[i].where + ": " + document.warnings[i].what : "";
}

const std::string two_points =
    "<trkpt lat='50' lon='11'><ele>310.5</ele><time>2026-06-13T05:00:00Z</time></trkpt>\n<trkpt lat='50.001' "
    "lon='11'/>\n";

TEST(ReadGpx, KeepsSegmentsNumbersHeightsAndTimes) {
  const GpxDocument d =
      read(gpx("<trk><name>Loop 1</name><trkseg>" + two_points + "</trkseg><trkseg>" + two_points + "</trkseg></trk>"));
  ASSERT_EQ(d.tracks.size(), 1u);
  ASSERT_EQ(d.tracks[0].segments.size(), 2u);
  const TrackPoint first = d.tracks[0].segments[0].points[0];
  EXPECT_EQ(first.position, (Position{50, 11}));
  EXPECT_EQ(first.elevation, Metres{310.5});
  EXPECT_EQ(iso8601(*first.time, Clock{}), "2026-06-13T05:00:00+00:00");
  EXPECT_EQ(d.tracks[0].segments[1].points[1].number, 4u);
  EXPECT_FALSE(d.tracks[0].segments[1].points[1].elevation);
  EXPECT_FALSE(d.tracks[0].segments[1].points[1].time);
  EXPECT_TRUE(d.warnings.empty());
}

TEST(ReadGpx, ReadsBothVersionsWithAnyPrefix) {
  EXPECT_EQ(read(gpx("<name>Old</name>" + track(two_points), "1.0")).name, "Old");
  EXPECT_EQ(read(gpx("<metadata><name>New</name></metadata>" + track(two_points))).name, "New");
  const GpxDocument prefixed = read(
      "<g:gpx xmlns:g='http://www.topografix.com/GPX/1/1' "
      "xmlns:x='urn:x'><g:trk><x:name>no</x:name><g:name>yes</g:name>"
      "<g:trkseg><g:trkpt lat='1' lon='2'><x:ele>9</x:ele><g:ele>7</g:ele></g:trkpt></g:trkseg></g:trk></g:gpx>");
  ASSERT_EQ(prefixed.tracks.size(), 1u);
  EXPECT_EQ(prefixed.tracks[0].name, "yes");
  EXPECT_EQ(prefixed.tracks[0].segments[0].points[0].elevation, Metres{7});
}

TEST(ReadGpx, IgnoresExtensionsOfAnyShape) {
  const GpxDocument d = read(
      gpx(track("<trkpt lat='50' lon='11'><extensions><ele>99</ele><hr xmlns='urn:h'>150</hr></extensions></trkpt>")));
  EXPECT_FALSE(d.tracks[0].segments[0].points[0].elevation);
}

TEST(ReadGpx, ReadsRoutesWaypointsCdataAndComments) {
  const GpxDocument d = read(
      gpx("<wpt lat='1' lon='2'><name><![CDATA[Caf\xC3\xA9 & <Co>]]></name><cmt>by the ford</cmt><sym>Flag</sym></wpt>"
          "<rte><name>Ri<!-- a comment -->de</name><rtept lat='1' lon='2'/><rtept lat='1' lon='3'/></rte>"));
  EXPECT_EQ(d.waypoints[0].name, "Caf\xC3\xA9 & <Co>");
  EXPECT_EQ(d.waypoints[0].description, "by the ford");
  EXPECT_EQ(d.waypoints[0].symbol, "Flag");
  EXPECT_TRUE(d.tracks[0].is_route);
  EXPECT_EQ(d.tracks[0].name, "Ride");
}

std::string utf16(const std::string& ascii, bool big, bool mark) {
  std::string bytes = mark ? (big ? "\xFE\xFF" : "\xFF\xFE") : "";
  for (const char c : ascii) {
    bytes += big ? std::string(1, '\0') + c : std::string(1, c) + std::string(1, '\0');
  }
  return bytes;
}

TEST(ReadGpx, ReadsTheSameInEveryEncoding) {
  const std::string plain = "<gpx><trk><name>T</name><trkseg>" + two_points + "</trkseg></trk></gpx>";
  for (const std::string& bytes :
       {plain, "\xEF\xBB\xBF" + plain, utf16(plain, true, true), utf16(plain, false, true), utf16(plain, true, false),
        utf16(plain, false, false), "<?xml version='1.0' encoding='ISO-8859-1'?>" + plain}) {
    const GpxDocument d = read(bytes);
    ASSERT_EQ(d.tracks.size(), 1u);
    EXPECT_EQ(d.tracks[0].segments[0].points.size(), 2u);
  }
  EXPECT_EQ(
      read("<?xml version='1.0' encoding='iso-8859-1'?><gpx><wpt lat='1' lon='2'><name>Caf\xE9</name></wpt></gpx>")
          .waypoints[0]
          .name,
      "Caf\xC3\xA9");
}

TEST(ReadGpx, CountsLinesTheSameWithCarriageReturns) {
  const std::string unix_text = gpx("\n\n<wpt lat='x' lon='2'/>");
  std::string dos;
  for (const char c : unix_text) dos += c == '\n' ? "\r\n" : std::string(1, c);
  EXPECT_EQ(refusal(unix_text), refusal(dos));
  EXPECT_THAT(refusal(dos), HasSubstr("a.gpx line 5, waypoint 1: latitude 'x' is not a number"));
}

TEST(ReadGpx, RefusesACoordinateItCannotReadWithLineAndPoint) {
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='50' lon='11'/>\n<trkpt lat='undefined' lon='11'/>"))),
              HasSubstr("a.gpx line 5, track 1 'T', point 2: latitude 'undefined' is not a number"));
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='50'/>"))), HasSubstr("point 1: has no longitude"));
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='50' lon=''/>"))), HasSubstr("longitude '' is not a number"));
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='nan' lon='1'/>"))), HasSubstr("latitude 'nan' is not a number"));
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='1e999' lon='1'/>"))), HasSubstr("latitude '1e999' is "));
}

TEST(ReadGpx, NamesADecimalCommaForWhatItIs) {
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='50,25' lon='11,5'/>"))),
              HasSubstr("point 1: latitude '50,25' has a decimal comma"));
}

TEST(ReadGpx, DropsPointsOffTheEarthAndSaysWhich) {
  const GpxDocument d =
      read(gpx(track("<trkpt lat='100' lon='0'/><trkpt lat='50' lon='11'/><trkpt lat='3' lon='-200'/>")));
  ASSERT_EQ(d.tracks[0].segments[0].points.size(), 1u);
  EXPECT_EQ(d.tracks[0].segments[0].points[0].number, 2u);
  EXPECT_THAT(warning(d), HasSubstr("track 1 'T', point 1: latitude '100' is out of range"));
  EXPECT_THAT(warning(d), HasSubstr("(and 1 more like it)"));
  EXPECT_THAT(refusal(gpx(track("<trkpt lat='100' lon='0'/>"))), HasSubstr("none of its 1 points is on Earth"));
}

TEST(ReadGpx, KeepsThePointWhoseTimeOrHeightIsUnreadable) {
  const GpxDocument d =
      read(gpx(track("<trkpt lat='50' lon='11'><ele>372,1</ele><time>13/06/2026</time></trkpt>"
                     "<trkpt lat='50' lon='12'><time>2026-06-13T07:00:00</time></trkpt>")));
  ASSERT_EQ(d.tracks[0].segments[0].points.size(), 2u);
  EXPECT_THAT(warning(d, 0), HasSubstr("point 1: height '372,1' is not a number"));
  EXPECT_THAT(warning(d, 1), HasSubstr("point 1: time '13/06/2026' is unreadable"));
  EXPECT_THAT(warning(d, 2), HasSubstr("point 2: time '2026-06-13T07:00:00' names no zone"));
}

TEST(ReadGpx, ReadsTimesWithZonesAndManyDigits) {
  const GpxDocument d =
      read(gpx(track("<trkpt lat='50' lon='11'><time>2021-01-07T21:51:59.179+01:15</time></trkpt>"
                     "<trkpt lat='50' lon='12'><time> 2010-01-01T14:48:37.5195429Z </time></trkpt>")));
  EXPECT_EQ(iso8601(*d.tracks[0].segments[0].points[0].time, Clock{}), "2021-01-07T20:36:59+00:00");
  EXPECT_EQ(iso8601(*d.tracks[0].segments[0].points[1].time, Clock{}), "2010-01-01T14:48:38+00:00");
}

TEST(ReadGpx, RefusesWhatIsNotWellFormedWithTheLine) {
  EXPECT_THAT(refusal("<gpx>\n<trk>\n</gpx>"), HasSubstr("a.gpx line 3: is not well-formed XML"));
  EXPECT_THAT(refusal("<gpx>\n<trk"), HasSubstr("is not well-formed XML"));
}

TEST(ReadGpx, SaysWhatAFileIsThatIsNotGpx) {
  EXPECT_EQ(refusal(""), "a.gpx: is empty");
  EXPECT_EQ(refusal(" \n"), "a.gpx: is empty");
  EXPECT_THAT(refusal("PK\x03\x04"), HasSubstr("zip archive"));
  EXPECT_THAT(refusal("lat;lon\n1;2"), HasSubstr("is not a GPX file: it does not begin with '<'"));
  EXPECT_THAT(refusal("<?xml version='1.0'?>\n<kml/>"),
              HasSubstr("line 2: is not a GPX file: its first element is <kml>"));
  EXPECT_THAT(refusal("<?xml version='1.0' encoding='koi8-r'?><gpx>\xC1</gpx>"), HasSubstr("written in 'koi8-r'"));
}

TEST(ReadGpx, ExpandsNoEntityOfADocumentType) {
  const GpxDocument d = read(
      "<?xml version='1.0'?><!DOCTYPE gpx [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>"
      "<!ENTITY x SYSTEM 'file:///etc/hostname'>]><gpx><wpt lat='1' lon='2'><name>&b;&x;</name></wpt></gpx>");
  EXPECT_EQ(d.waypoints[0].name, "&b;&x;");
}

TEST(ReadGpx, LeavesOutTracksWithoutPointsAndSaysSo) {
  const GpxDocument d = read(gpx("<trk><name>Empty</name><trkseg/></trk>" + track(two_points)));
  ASSERT_EQ(d.tracks.size(), 1u);
  EXPECT_THAT(warning(d), HasSubstr("track 1 'Empty': has no points and is left out"));
  EXPECT_THAT(warning(read(gpx(""))), HasSubstr("holds no track, route or waypoint"));
}

// Random text: letters, markup, control characters and bytes that are no UTF-8.
std::string any_text(Rng& rng) {
  std::string text;
  const auto length = uniform_below(rng, 12);
  for (std::uint64_t i = 0; i < length; ++i) {
    switch (uniform_below(rng, 4)) {
      case 0:
        text += static_cast<char>(uniform_below(rng, 256));
        break;
      case 1:
        text += "<&>\"']]>"[uniform_below(rng, 8)];
        break;
      case 2:
        text += "\xC3\xA9";
        break;
      default:
        text += static_cast<char>('a' + static_cast<char>(uniform_below(rng, 26)));
    }
  }
  return text;
}
Position any_position(Rng& rng) {
  const double latitude = 180 * uniform(rng) - 90;
  const double longitude = 360 * uniform(rng) - 180;
  return {latitude, longitude};
}

GpxOutput any_output(Rng& rng) {
  GpxOutput output;
  output.name = any_text(rng);
  output.description = any_text(rng);
  if (uniform(rng) < 0.5) output.time = Instant{Seconds{1.7e9 + 1e6 * uniform(rng)}};
  const auto point = [&] {
    OutWaypoint p;
    p.name = any_text(rng);
    p.comment = any_text(rng);
    p.description = any_text(rng);
    p.symbol = any_text(rng);
    p.type = any_text(rng);
    p.position = any_position(rng);
    if (uniform(rng) < 0.5) p.elevation = Metres{1000 * uniform(rng)};
    if (uniform(rng) < 0.5) p.time = Instant{Seconds{1.7e9 + 1e6 * uniform(rng)}};
    return p;
  };
  for (auto n = uniform_below(rng, 4); n > 0; --n) output.waypoints.push_back(point());
  for (auto n = uniform_below(rng, 3); n > 0; --n) output.routes.push_back({any_text(rng), any_text(rng), {point()}});
  for (auto n = uniform_below(rng, 3); n > 0; --n) {
    OutTrack t{any_text(rng), any_text(rng), {}};
    t.segments.push_back({{any_position(rng), Metres{3.25}, std::nullopt}});
    t.segments.push_back({{any_position(rng), std::nullopt, Instant{Seconds{1.7e9}}}});
    output.tracks.push_back(t);
  }
  return output;
}

std::string as_read(const std::string& text) {
  std::string clean = xml_text(text);
  const auto from = clean.find_first_not_of(" \t\r\n");
  return from == std::string::npos ? "" : clean.substr(from, clean.find_last_not_of(" \t\r\n") - from + 1);
}

TEST(WriteGpx, ReadsBackAsItWasWritten) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng{Seed{seed}};
    const GpxOutput output = any_output(rng);
    const GpxDocument d = read(write_gpx(output));
    EXPECT_EQ(d.name, as_read(output.name));
    ASSERT_EQ(d.waypoints.size(), output.waypoints.size());
    for (std::size_t i = 0; i < d.waypoints.size(); ++i) {
      EXPECT_EQ(d.waypoints[i].name, as_read(output.waypoints[i].name));
      EXPECT_NEAR(d.waypoints[i].position.latitude, output.waypoints[i].position.latitude, 0.51e-7);
      EXPECT_NEAR(d.waypoints[i].position.longitude, output.waypoints[i].position.longitude, 0.51e-7);
      EXPECT_EQ(d.waypoints[i].elevation.has_value(), output.waypoints[i].elevation.has_value());
    }
    ASSERT_EQ(d.tracks.size(), output.routes.size() + output.tracks.size());
    for (const Track& t : d.tracks) EXPECT_EQ(t.segments.size(), t.is_route ? 1u : 2u);
  }
}

TEST(WriteGpx, GivesEqualBytesForEqualValues) {
  Rng a{Seed{7}}, b{Seed{7}};
  EXPECT_EQ(write_gpx(any_output(a)), write_gpx(any_output(b)));
}

// The published GPX 1.1 schema (see SOURCES.md beside it), checked by xmllint.
TEST(WriteGpx, ValidatesAgainstThePublishedSchema) {
  const std::string schema = std::string(OUTBYE_SHARED) + "/data/reference/gpx-1.1.xsd";
  if (!std::ifstream(schema)) GTEST_SKIP() << "no " << schema;
  if (std::system("command -v xmllint >/dev/null") != 0) GTEST_SKIP() << "xmllint is not installed";
  std::string files;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Rng rng{Seed{seed}};
    GpxOutput output = seed == 1 ? GpxOutput{} : any_output(rng);
    // The corners of the schema's ranges.
    if (seed == 2) {
      for (const Position p :
           {Position{90, 180}, Position{-90, -180}, Position{0, 179.99999999}, Position{-0.0, -0.0}}) {
        output.tracks.push_back({"", "", {{{p, std::nullopt, std::nullopt}}}});
      }
    }
    const std::string name = testing::TempDir() + "outbye_schema_" + std::to_string(seed) + ".gpx";
    std::ofstream(name, std::ios::binary) << write_gpx(output);
    files += " " + name;
  }
  const std::string log = testing::TempDir() + "outbye_schema.log";
  const std::string command = "xmllint --noout --schema '" + schema + "'" + files + " 2>'" + log + "'";
  EXPECT_EQ(std::system(command.c_str()), 0) << "see " << log;
}

}  // namespace
}  // namespace outbye
