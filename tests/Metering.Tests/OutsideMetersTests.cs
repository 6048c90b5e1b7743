using System.Globalization;
using Athwart.Metering.Tests.Support;
using Athwart.Tests.Shared;

namespace Athwart.Metering.Tests;

/// <summary>Loudness, range and true peak of real recordings beside two independent meters: ffmpeg ebur128 and libebur128.</summary>
public class OutsideMetersTests
{
    public static TheoryData<string> Names => [.. RealStereo.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void RealRecordings_ReadAsInLibebur128(string name)
    {
        var (left, right) = RealStereo.Read(name);
        var expected = LibEbuR128.Measure(left, right, RealStereo.Rate);
        var ours = Tones.Meter(left, right, RealStereo.Rate).Measure();
        Assert.Equal(expected.Integrated, ours.Integrated.Value, 0.02);
        // It interpolates with another filter, of 49 taps.
        Assert.Equal(expected.TruePeak, TruePeak(left, right), 0.3);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void RealRecordings_ReadAsInFfmpeg_AndEncodedToMidAndSideToo(string name)
    {
        var result = ReferenceProgram.Run(ReferenceProgram.Require("ffmpeg"), "-nostats", "-i", RealStereo.PathOf(name), "-filter_complex", "ebur128=peak=true", "-f", "null", "-");
        var summary = result.Error[result.Error.LastIndexOf("Summary:", StringComparison.Ordinal)..];
        var ours = RealStereo.Measure(name);
        Assert.Equal(Value(summary, "I:"), ours.Loudness.Integrated.Value, 0.11); // it prints one decimal
        Assert.Equal(Value(summary, "Peak:"), ours.DecodedTruePeak.Value, 0.3);
    }

    [Fact]
    public void AllRealRecordingsInARow_ReadTheRangeOfBothMeters()
    {
        // Single files are too short: libebur128 takes a short-term value each second only, and few values make rough percentiles.
        // ffmpeg counts in bins of 0.1 LU and takes in windows that are not full yet. Tech 3342 itself tolerates 1 LU.
        var all = RealStereo.Names.Select(RealStereo.Read).ToList();
        float[] left = [.. all.SelectMany(p => p.Left)], right = [.. all.SelectMany(p => p.Right)];
        var range = Tones.Meter(left, right, RealStereo.Rate).Measure().Range.Value;
        Assert.Equal(LibEbuR128.Measure(left, right, RealStereo.Rate).Range, range, 0.5);
        Assert.Equal(Value(Ebur128(left, right), "LRA:"), range, 0.5);
    }

    private static string Ebur128(float[] left, float[] right)
    {
        using var folder = new TemporaryFolder();
        var both = new float[left.Length * 2];
        for (var i = 0; i < left.Length; i++)
            (both[2 * i], both[(2 * i) + 1]) = (left[i], right[i]);
        File.WriteAllBytes(folder.File("raw.f32"), System.Runtime.InteropServices.MemoryMarshal.AsBytes(both.AsSpan()));
        var result = ReferenceProgram.Run(ReferenceProgram.Require("ffmpeg"), "-nostats", "-f", "f32le", "-ar", "44100", "-ac", "2", "-i", folder.File("raw.f32"), "-filter_complex", "ebur128", "-f", "null", "-");
        return result.Error[result.Error.LastIndexOf("Summary:", StringComparison.Ordinal)..];
    }

    private static double TruePeak(float[] left, float[] right)
    {
        var (first, second) = (new TruePeakMeter(RealStereo.Rate), new TruePeakMeter(RealStereo.Rate));
        first.Add(left);
        second.Add(right);
        return Math.Max(first.Peak.Value, second.Peak.Value);
    }

    private static double Value(string summary, string label)
    {
        var at = summary.IndexOf(label, StringComparison.Ordinal) + label.Length;
        return double.Parse(summary.AsSpan(at).TrimStart()[..summary.AsSpan(at).TrimStart().IndexOf(' ')], CultureInfo.InvariantCulture);
    }
}
