using System.Security.Cryptography;
using System.Text;
using Athwart.Jobs.Tests.Render;
using Athwart.Metering;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.EndToEnd;

/// <summary>Every file of the delivery against the card it came from.</summary>
[Collection(DemoDayGroup.Name)]
public sealed class DemoDeliveryTests(DemoDay day)
{
    // Issue 2, section 4: the mono fold is the mid to the bit where the word can hold it, within one step otherwise.
    [Fact]
    public void EveryStereo_FoldsToTheMid()
    {
        var (exact, others) = (0, 0);
        foreach (var effect in day.Effects())
        {
            var stereo = TestTakes.Samples(effect.Stereo);
            var (mid, _) = DemoDay.Original(effect);
            Assert.Equal(mid.Length, stereo[0].Length);
            double worst = 0;
            for (var n = 0; n < mid.Length; n++)
            {
                var fold = (stereo[0][n] + stereo[1][n]) / 2;
                worst = Math.Max(worst, Math.Abs(fold - (mid[n] * effect.Recipe.Treatment.TrimGain)));
            }

            var steps = Math.ScaleB(worst, 23);
            if (effect.IsExact)
                Assert.Equal(0, worst);
            else
                Assert.True(steps <= 1, $"{effect.Name} of {effect.Truth.Name}: {steps} steps");
            (exact, others) = effect.IsExact ? (exact + 1, others) : (exact, others + 1);
        }

        Assert.True(exact > 10 && others > 0, $"{exact} exact, {others} others");
    }

    [Fact]
    public void EveryRawPair_HasTheVerySamplesOfTheCard()
    {
        foreach (var effect in day.Effects())
        {
            var raw = TestTakes.Samples(effect.MidSide);
            var (mid, side) = DemoDay.Original(effect);
            Assert.True(mid.AsSpan().SequenceEqual(raw[0]), effect.MidSide);
            Assert.True(side.AsSpan().SequenceEqual(raw[1]), effect.MidSide);
            using var file = RecordingFile.Open(effect.MidSide);
            Assert.Equal((effect.Take.SampleRateHertz, effect.Take.Format), (file.SampleRateHertz, file.Format));
        }
    }

    [Fact]
    public void TheMono_IsTheMid_AtTheTrimOfItsStereo()
    {
        foreach (var effect in day.Effects().Where(e => e.IsExact))
        {
            var mono = TestTakes.Samples(effect.Stereo.Replace("_stereo", "_mono", StringComparison.Ordinal));
            Assert.True(DemoDay.Original(effect).Mid.AsSpan().SequenceEqual(Assert.Single(mono)), effect.Name);
        }
    }

    [Fact]
    public void AChunkNobodyKnows_TravelsWithTheRawPair_ByteForByte_AndOnlyThere()
    {
        var expected = Encoding.ASCII.GetBytes("height 1.60 m; spacing 0.02 m; facing E");
        foreach (var effect in day.Effects())
        {
            using var raw = RecordingFile.Open(effect.MidSide);
            using var stereo = RecordingFile.Open(effect.Stereo);
            Assert.DoesNotContain(stereo.Chunks, c => c.Id == "rigx");
            var carried = raw.Chunks.Where(c => c.Id == "rigx").ToList();
            if (effect.Truth.Name.EndsWith("03", StringComparison.Ordinal))
                Assert.Equal(expected, raw.ReadChunk(Assert.Single(carried), 1000));
            else
                Assert.Empty(carried);
        }
    }

    // Source: EBU Tech 3285 v2, TimeReference: first sample count since midnight.
    [Fact]
    public void Bext_TellsTheTimeOfTheCutsFirstSample_InEveryFile()
    {
        foreach (var effect in day.Effects())
        {
            var expected = effect.Truth.TimeReference + (ulong)effect.Recipe.Source.FromFrame;
            foreach (var path in new[] { effect.Stereo, effect.MidSide, effect.Stereo.Replace("_stereo", "_mono", StringComparison.Ordinal) })
            {
                using var file = RecordingFile.Open(path);
                Assert.Equal((expected, 2, "Athwart demo", "2026-05-14"), (file.Broadcast!.TimeReference, file.Broadcast.Version, file.Broadcast.Originator, file.Broadcast.OriginationDate));
                Assert.Equal(expected, file.Production!.Speed!.TimestampSamplesSinceMidnight);
            }
        }
    }

    [Fact]
    public void CodingHistory_IsAppendedToTheRecorders()
    {
        foreach (var effect in day.Effects())
        {
            using var stereo = RecordingFile.Open(effect.Stereo);
            var lines = stereo.Broadcast!.CodingHistory.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(2, lines.Length);
            Assert.Equal(effect.Take.Broadcast!.CodingHistory.TrimEnd(), lines[0]);
            Assert.StartsWith($"A=PCM,F={effect.Take.SampleRateHertz},W={(effect.IsFloat ? 32 : 24)},M=stereo,", lines[1], StringComparison.Ordinal);
            Assert.Contains("side -3.00 dB", lines[1], StringComparison.Ordinal);
        }
    }

    // Source: EBU Tech 3285 v2, the loudness fields in hundredths.
    [Fact]
    public void LoudnessFields_AreWhatTheFileMeasures()
    {
        foreach (var effect in day.Effects())
        {
            using var file = RecordingFile.Open(effect.Stereo);
            var (loudness, peak) = Measure(file);
            Near(file.Broadcast!.LoudnessValue, loudness.Integrated.Value);
            Near(file.Broadcast.LoudnessRange, loudness.Range.Value);
            Near(file.Broadcast.MaxMomentaryLoudness, loudness.MaxMomentary.Value);
            Near(file.Broadcast.MaxShortTermLoudness, loudness.MaxShortTerm.Value);
            Near(file.Broadcast.MaxTruePeakLevel, peak);
            Assert.True(peak <= -1 + 0.02, $"{effect.Name}: {peak} dBTP");
        }

        static void Near(double? field, double measured)
        {
            if (double.IsFinite(measured))
                Assert.InRange(field!.Value - measured, -0.02, 0.02);
            else
                Assert.Null(field);
        }
    }

    [Fact]
    public void Ixml_NamesTheTracks_TheTakeAndTheParentFile()
    {
        foreach (var effect in day.Effects())
        {
            Assert.Equal(["LEFT", "RIGHT"], Functions(effect.Stereo), StringComparer.Ordinal);
            Assert.Equal(["M-MID_SIDE", "S-MID_SIDE"], Functions(effect.MidSide), StringComparer.Ordinal);
            Assert.Equal(["M-MID_SIDE"], Functions(effect.Stereo.Replace("_stereo", "_mono", StringComparison.Ordinal)), StringComparer.Ordinal);
            using var file = RecordingFile.Open(effect.Stereo);
            var notes = file.Production!;
            Assert.Equal("Canal lock", notes.Project);
            Assert.Equal((effect.Take.Production!.Scene, effect.Take.Production.Take), (notes.Scene, notes.Take));
            Assert.Equal(Path.GetFileName(effect.Truth.Files[0]), notes.History!.ParentFilename);
            Assert.Equal(effect.Take.Production.FileUid, notes.History.ParentUid);
        }

        static IEnumerable<string> Functions(string path)
        {
            using var file = RecordingFile.Open(path);
            return [.. file.Production!.Tracks.OrderBy(t => t.InterleaveIndex).Select(t => t.Function)];
        }
    }

    [Fact]
    public void MarkersInsideTheCut_AreShiftedWithIt()
    {
        foreach (var effect in day.Effects())
        {
            var (from, to) = (effect.Recipe.Source.FromFrame, effect.Recipe.Source.ToFrame);
            var expected = effect.Take.Markers.Where(m => m.Frame >= from && m.Frame < to)
                .Select(m => (m.Frame - from, Math.Min(m.Length, to - m.Frame), m.Label));
            using var stereo = RecordingFile.Open(effect.Stereo);
            using var raw = RecordingFile.Open(effect.MidSide);
            Assert.Equal(expected, stereo.Markers.Select(m => (m.Frame, m.Length, m.Label)));
            Assert.Equal(expected, raw.Markers.Select(m => (m.Frame, m.Length, m.Label)));
        }

        Assert.Contains(day.Effects(), e => e.Recipe.Source.FromFrame > 0 && e.Recipe.Output.Metadata.Markers.Count > 0);
    }

    [Fact]
    public void InfoTags_NameTheEffectTheProgramAndTheDay()
    {
        foreach (var effect in day.Effects())
        {
            using var file = RecordingFile.Open(effect.Stereo);
            var info = file.Info.ToDictionary(t => t.Id, t => t.Text, StringComparer.Ordinal);
            Assert.Equal(effect.Name, info["INAM"]);
            Assert.Equal(("2026-05-14", "Canal lock", "Athwart demo"), (info["ICRD"], info["IPRD"], info["IART"]));
            Assert.StartsWith("Athwart ", info["ISFT"], StringComparison.Ordinal);
        }
    }

    [Fact]
    public void TheManifest_HasEveryFile_WithItsLengthAndSha256()
    {
        var files = day.Report.Delivery.Manifest.Files;
        Assert.Equal(
            Directory.GetFiles(day.Report.Delivery.Folder).Select(Path.GetFileName).Where(f => f != "manifest.json").Order(StringComparer.Ordinal),
            files.Select(f => f.Path),
            StringComparer.Ordinal);
        foreach (var file in files)
        {
            using var stream = File.OpenRead(day.Delivered(file.Path));
            Assert.Equal((file.Bytes, file.Sha256), (stream.Length, Convert.ToHexStringLower(SHA256.HashData(stream))));
        }
    }

    [Fact]
    public void TheTable_SaysTheSameAsTheManifest()
    {
        var lines = File.ReadAllLines(day.Delivered("manifest.csv"));
        foreach (var file in day.Report.Delivery.Manifest.Files.Where(f => f.Path != "manifest.csv" && f.Path != "report.html"))
            Assert.Contains(lines, l => l.Contains(file.Path, StringComparison.Ordinal) && l.Contains(file.Sha256, StringComparison.Ordinal));
    }

    [Fact]
    public void TheReport_NamesEveryEffect_AndFetchesNothing()
    {
        var html = File.ReadAllText(day.Report.Delivery.ReportPath);
        Assert.All(day.Effects(), e => Assert.Contains(System.Net.WebUtility.HtmlEncode(e.Name), html, StringComparison.Ordinal));
        Assert.DoesNotContain("src=\"http", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("url(http", html, StringComparison.OrdinalIgnoreCase);
    }

    private static (LoudnessMeasures Loudness, double TruePeak) Measure(RecordingFile file)
    {
        var block = new PlanarBlock<float>(2, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        var (loudness, left, right) = (new LoudnessMeter(file.SampleRateHertz), new TruePeakMeter(file.SampleRateHertz), new TruePeakMeter(file.SampleRateHertz));
        loudness.Add(block.Channel(0), block.Channel(1));
        left.Add(block.Channel(0));
        right.Add(block.Channel(1));
        return (loudness.Measure(), Math.Max(left.Peak.Value, right.Peak.Value));
    }
}
