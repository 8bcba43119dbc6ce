// Every real GPX file is read as python3-gpxpy reads it, or refused with the right message; mutated files never crash.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/base/text.h"
#include "core/course/course.h"
#include "formats/gpx/gpx.h"
#include "tests/course_support.h"

namespace outbye {
namespace {

using testing::HasSubstr;

// As course_gpxpy.py prints it.
std::string number(std::optional<double> value) { return value ? fixed(*value, 7) : "-"; }
std::string clean(const std::string& text) {
  std::istringstream words(text);
  std::string word, result;
  while (words >> word) result += (result.empty() ? "" : " ") + word;
  return result;
}
std::optional<double> plain(const std::optional<Metres>& m) {
  return m ? std::optional<double>(m->value) : std::nullopt;
}

std::vector<std::string> as_gpxpy_prints(const GpxDocument& document) {
  std::vector<std::string> lines;
  for (const bool routes : {false, true}) {
    for (const Track& track : document.tracks) {
      if (track.is_route != routes) continue;
      lines.push_back((routes ? "rte\t" : "trk\t") + clean(track.name));
      for (const TrackSegment& segment : track.segments) {
        if (!routes) lines.push_back("seg");
        for (const TrackPoint& p : segment.points) {
          lines.push_back("pt\t" + number(p.position.latitude) + "\t" + number(p.position.longitude) + "\t" +
                          number(plain(p.elevation)) + "\t" + (p.time ? "time" : "-"));
        }
      }
    }
  }
  for (const Waypoint& w : document.waypoints) {
    lines.push_back("wpt\t" + clean(w.name) + "\t" + number(w.position.latitude) + "\t" + number(w.position.longitude) +
                    "\t" + number(plain(w.elevation)));
  }
  return lines;
}

// Files that are not simply read: what must be said. From the table of quirks in SOURCES-more.md.
const std::map<std::string, std::string>& refusals() {
  static const std::map<std::string, std::string> table{
      {"togeojson-bad.gpx", "togeojson-bad.gpx line 5, track 1, point 1: latitude 'undefined' is not a number"},
      {"jpx-GPX_invalid_extensions.gpx", "jpx-GPX_invalid_extensions.gpx line 39: is not well-formed XML"},
  };
  return table;
}
const std::map<std::string, std::string>& warnings_due() {
  static const std::map<std::string, std::string> table{
      {"opentracks-legacy_gpx_pause_resume.gpx",
       "point 4: latitude '100' is out of range (-90 to 90); the point is left "
       "out (and 1 more like it)"},
      {"custom_schema_locations.gpx", "holds no track, route or waypoint"},
      {"no_trk.gpx", "holds no track, route or waypoint"},
      {"no_trkseg.gpx", "track 1 'GraphHopper': has no points and is left out"},
      {"no_trkpt.gpx", "track 1 'GraphHopper': has no points and is left out"},
      {"korita-zbevnica.gpx", "track 1 '03-OCT-10': has no points and is left out"},
      {"gpx1.1_with_all_fields.gpx", "time '2013-01-01T12:00:04' names no zone; taken as UTC"},
  };
  return table;
}

TEST(RealGpxFiles, AreReadAsGpxpyReadsThemOrRefusedWithTheRightMessage) {
  const std::vector<std::filesystem::path> files = real_gpx_files();
  if (files.empty()) GTEST_SKIP() << "no files below " << OUTBYE_SHARED << "/data/real";
  if (!has_gpxpy()) GTEST_SKIP() << "python3-gpxpy is not installed";
  const auto answers = run_gpxpy("points", files);
  std::size_t lines = 0, refused = 0;
  for (const auto& path : files) {
    const std::string name = path.filename().string();
    SCOPED_TRACE(name);
    ASSERT_TRUE(answers.contains(name));
    const std::vector<std::string>& expected = answers.at(name);
    const auto document = read_gpx(file_bytes(path), name);
    if (const auto refusal = refusals().find(name); refusal != refusals().end()) {
      EXPECT_EQ(expected, std::vector<std::string>{"refused"});
      ASSERT_FALSE(document);
      EXPECT_THAT(document.error().where + ": " + document.error().what, HasSubstr(refusal->second));
      ++refused;
      continue;
    }
    ASSERT_TRUE(document) << document.error().where << ": " << document.error().what;
    const std::vector<std::string> actual = as_gpxpy_prints(*document);
    std::vector<std::string> wanted = expected;
    if (name == "opentracks-legacy_gpx_pause_resume.gpx") {  // gpxpy keeps latitudes of 100 and 200 degrees
      std::erase_if(wanted, [](const std::string& line) {
        return line.rfind("pt\t100", 0) == 0 || line.rfind("pt\t200", 0) == 0;
      });
      EXPECT_EQ(wanted.size() + 2, expected.size());
    }
    ASSERT_EQ(actual.size(), wanted.size());
    for (std::size_t i = 0; i < actual.size(); ++i) ASSERT_EQ(actual[i], wanted[i]) << "line " << i + 1;
    lines += actual.size();
    std::string said;
    for (const Warning& w : document->warnings) said += w.where + ": " + w.what + "\n";
    if (const auto due = warnings_due().find(name); due != warnings_due().end()) {
      EXPECT_THAT(said, HasSubstr(due->second));
    }
  }
  EXPECT_EQ(refused, refusals().size());
  EXPECT_GT(lines, 35000u);
  RecordProperty("files", std::to_string(files.size()));
  RecordProperty("lines_compared", std::to_string(lines));
}

// What we write, another program reads: names with markup and non-ASCII letters, heights, all of it.
TEST(WrittenGpx, IsReadByGpxpyAsItWasMeant) {
  if (!has_gpxpy()) GTEST_SKIP() << "python3-gpxpy is not installed";
  GpxOutput output;
  output.name = "Plan <1> & \"2\"";
  output.waypoints.push_back({"M\xC3\xBChle & Co",
                              "leave by 10:40",
                              "a < b",
                              "Parking Area",
                              "meet",
                              {52.5, -1.25},
                              Metres{101.5},
                              Instant{Seconds{1.78e9}}});
  output.waypoints.push_back({"Dateline", "", "", "", "", {-16.5, 180}, std::nullopt, std::nullopt});
  output.routes.push_back({"Car 1", "", {output.waypoints[0], output.waypoints[1]}});
  output.tracks.push_back(
      {"Drive", "", {{{{52.5, -1.25}, Metres{5}, std::nullopt}, {{52.6, -1.5}, std::nullopt, std::nullopt}}}});
  const std::filesystem::path path = std::filesystem::path(testing::TempDir()) / "outbye_written.gpx";
  std::ofstream(path, std::ios::binary) << write_gpx(output);
  const std::vector<std::string> expected{"trk\tDrive",
                                          "seg",
                                          "pt\t52.5000000\t-1.2500000\t5.0000000\t-",
                                          "pt\t52.6000000\t-1.5000000\t-\t-",
                                          "rte\tCar 1",
                                          "pt\t52.5000000\t-1.2500000\t101.5000000\ttime",
                                          "pt\t-16.5000000\t-180.0000000\t-\t-",
                                          "wpt\tM\xC3\xBChle & Co\t52.5000000\t-1.2500000\t101.5000000",
                                          "wpt\tDateline\t-16.5000000\t-180.0000000\t-"};
  EXPECT_EQ(run_gpxpy("points", {path})["outbye_written.gpx"], expected);
}

// Real files, written again by us, hold the same to the last digit we write.
TEST(RealGpxFiles, SurviveBeingWrittenAgain) {
  const std::vector<std::filesystem::path> files = real_gpx_files();
  if (files.empty()) GTEST_SKIP() << "no files below " << OUTBYE_SHARED << "/data/real";
  for (const auto& path : files) {
    SCOPED_TRACE(path.filename().string());
    const auto document = read_gpx(file_bytes(path), path.filename().string());
    if (!document) continue;
    GpxOutput output;
    for (const Waypoint& w : document->waypoints) {
      output.waypoints.push_back({w.name, "", w.description, w.symbol, "", w.position, w.elevation, std::nullopt});
    }
    for (const Track& t : document->tracks) {
      OutTrack track{t.name, "", {}};
      for (const TrackSegment& s : t.segments) {
        track.segments.emplace_back();
        for (const TrackPoint& p : s.points) track.segments.back().push_back({p.position, p.elevation, p.time});
      }
      output.tracks.push_back(std::move(track));
    }
    const auto again = read_gpx(write_gpx(output), "again.gpx");
    ASSERT_TRUE(again) << again.error().where << ": " << again.error().what;
    ASSERT_EQ(again->tracks.size(), document->tracks.size());
    ASSERT_EQ(again->waypoints.size(), document->waypoints.size());
    for (std::size_t t = 0; t < again->tracks.size(); ++t) {
      ASSERT_EQ(again->tracks[t].segments.size(), document->tracks[t].segments.size());
      for (std::size_t s = 0; s < again->tracks[t].segments.size(); ++s) {
        const auto& before = document->tracks[t].segments[s].points;
        const auto& after = again->tracks[t].segments[s].points;
        ASSERT_EQ(before.size(), after.size());
        for (std::size_t i = 0; i < before.size(); ++i) {
          EXPECT_NEAR(before[i].position.latitude, after[i].position.latitude, 0.51e-7);
          EXPECT_NEAR(before[i].position.longitude, after[i].position.longitude, 0.51e-7);
          ASSERT_EQ(before[i].elevation.has_value(), after[i].elevation.has_value());
          const Metres rise = before[i].elevation.value_or(Metres{}) - after[i].elevation.value_or(Metres{});
          EXPECT_NEAR(rise.value, 0, 0.051);
          ASSERT_EQ(before[i].time.has_value(), after[i].time.has_value());
          const Instant never{};
          EXPECT_NEAR((before[i].time.value_or(never) - after[i].time.value_or(never)).count(), 0, 0.51);
        }
      }
    }
  }
}

std::string mutated(std::string bytes, const std::vector<std::string>& all, Rng& rng) {
  static const std::vector<std::string> pieces{"<trkpt lat=\"",
                                               "</trk>",
                                               "<trkseg>",
                                               "&lt;",
                                               "&#x0;",
                                               "<![CDATA[",
                                               "]]>",
                                               "<!--",
                                               "\xFF",
                                               "\xFE\xFF",
                                               "-1e308",
                                               "nan",
                                               "99999999999999",
                                               "\"",
                                               "<gpx>",
                                               "<a:gpx xmlns:a=''>",
                                               "encoding='utf-16'",
                                               std::string(3, '\0')};
  const auto edits = 1 + uniform_below(rng, 3);
  for (std::uint64_t e = 0; e < edits && !bytes.empty(); ++e) {
    auto at = static_cast<std::size_t>(uniform_below(rng, bytes.size()));
    const auto length = static_cast<std::size_t>(uniform_below(rng, 40));
    // Half the edits change a digit to another character of a number: the file stays well formed.
    if (uniform(rng) < 0.5) {
      at = bytes.find_first_of("0123456789", at);
      if (at != std::string::npos) bytes[at] = "0123456789-.,eE "[uniform_below(rng, 16)];
      continue;
    }
    switch (uniform_below(rng, 6)) {
      case 0:
        bytes[at] = static_cast<char>(uniform_below(rng, 256));
        break;
      case 1:
        bytes.erase(at, length);
        break;
      case 2:
        bytes.insert(at, pieces[static_cast<std::size_t>(uniform_below(rng, pieces.size()))]);
        break;
      case 3:
        bytes.insert(at, bytes.substr(at, length));
        break;
      case 4:
        bytes.resize(at);
        break;
      default: {
        const std::string& other = all[static_cast<std::size_t>(uniform_below(rng, all.size()))];
        const auto from = static_cast<std::size_t>(uniform_below(rng, other.size() + 1));
        bytes.insert(at, other.substr(from, 4 * length));
      }
    }
  }
  return bytes;
}

// 2,000 inputs; each is read or refused, and what is read makes a course or a refusal, with a message either way.
TEST(MutatedGpxFiles, AreReadOrRefusedAndNeverCrash) {
  std::vector<std::string> seeds{
      "<?xml version=\"1.0\"?><gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\"><wpt lat=\"50\" "
      "lon=\"11\">"
      "<ele>3</ele><name>CP1</name></wpt><trk><name>T</name><trkseg><trkpt lat=\"50\" lon=\"11\"><ele>1</ele></trkpt>"
      "<trkpt lat=\"50.001\" lon=\"11\"><time>2026-06-13T05:00:00Z</time></trkpt></trkseg></trk></gpx>"};
  for (const auto& path : real_gpx_files()) {
    if (std::filesystem::file_size(path) < 6000) seeds.push_back(file_bytes(path));
  }
  std::size_t read = 0, built = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng{Seed{seed}};
    const std::string bytes = mutated(seeds[static_cast<std::size_t>(seed % seeds.size())], seeds, rng);
    const auto document = read_gpx(bytes, "m.gpx");
    if (!document) {
      EXPECT_FALSE(document.error().where.empty());
      EXPECT_FALSE(document.error().what.empty());
      continue;
    }
    ++read;
    std::vector<LoopSource> loops;
    for (const Track& t : document->tracks) {
      for (const TrackSegment& s : t.segments) {
        for (const TrackPoint& p : s.points) {
          EXPECT_LE(std::abs(p.position.latitude), 90);
          EXPECT_LE(std::abs(p.position.longitude), 180);
        }
      }
      loops.push_back({t.name, {t}, seed % 2 == 0});
    }
    std::vector<CrewPoint> crew;
    for (const Waypoint& w : document->waypoints) crew.push_back({w.name, w.position, w.description});
    const auto course = build_course(loops, crew, {}, {});
    if (course) {
      ++built;
      for (const Loop& loop : course->loops) {
        for (std::size_t i = 0; i + 1 < loop.points.size(); ++i) {
          EXPECT_LT(loop.points[i].along, loop.points[i + 1].along);
        }
      }
    } else {
      EXPECT_FALSE(course.error().what.empty());
    }
  }
  EXPECT_GT(read, 500u);
  EXPECT_GT(built, 150u);
  EXPECT_LT(read, 2000u);
  RecordProperty("read", std::to_string(read));
  RecordProperty("built", std::to_string(built));
}

}  // namespace
}  // namespace outbye
