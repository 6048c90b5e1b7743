using Athwart.Metering.Tests.Support;
using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

/// <summary>EBU Tech 3341 V4 (2023), Table 1: the signals are synthesised from their description; tolerance 0.1 LU as printed.</summary>
public class Tech3341Tests
{
    internal static readonly double Silence = double.NegativeInfinity;

    [Theory]
    [InlineData(-23.0)]
    [InlineData(-33.0)]
    public void Tech3341_Tests1And2_StereoSine1kHz_ReadsItsLevelWithin0_1(double level)
    {
        var meter = Meter(Steps(Rate, 1000, (20, level)), Steps(Rate, 1000, (20, level)));
        Assert.Equal(level, meter.Momentary.Value, 0.1);
        Assert.Equal(level, meter.ShortTerm.Value, 0.1);
        Assert.Equal(level, meter.Measure().Integrated.Value, 0.1);
    }

    [Fact]
    public void Tech3341_Test3_SoftEndsFallUnderTheRelativeGate() =>
        Assert.Equal(-23, Measure(Steps(Rate, 1000, (10, -36), (60, -23), (10, -36))).Integrated.Value, 0.1);

    [Fact]
    public void Tech3341_Test4_SofterEndsFallUnderTheAbsoluteGate() =>
        Assert.Equal(-23, Measure(Steps(Rate, 1000, (10, -72), (10, -36), (60, -23), (10, -36), (10, -72))).Integrated.Value, 0.1);

    [Fact]
    public void Tech3341_Test5_ThreeStepsWithinTheGateAverage() =>
        Assert.Equal(-23, Measure(Steps(Rate, 1000, (20, -26), (20.1, -20), (20, -26))).Integrated.Value, 0.1);

    [Fact]
    public void Tech3341_Test9_ShortTermIsConstantAfter3Seconds()
    {
        var signal = Steps(Rate, 1000, Repeat(5, (1.34, -20), (1.66, -30)));
        var readings = Readings(signal, after: 3.0, m => m.ShortTerm.Value);
        Assert.All(readings, s => Assert.Equal(-23, s, 0.1));
    }

    [Fact]
    public void Tech3341_Test10_FileMeters_MaximumShortTermIsFoundAtAnyOffset()
    {
        for (var i = 0; i < 20; i++)
            Assert.Equal(-23, Measure(Steps(Rate, 1000, (i * 0.15, Silence), (3, -23), (1, Silence))).MaxShortTerm.Value, 0.1);
    }

    [Fact]
    public void Tech3341_Test11_LiveMeters_MaximumShortTermFollowsEachStep()
    {
        var meter = new LoudnessMeter(Rate);
        for (var i = 0; i < 20; i++)
        {
            var signal = Steps(Rate, 1000, (i * 0.15, Silence), (3, -38 + i), (3 - (i * 0.15), Silence));
            Assert.Equal(-38 + i, Largest(meter, signal, m => m.ShortTerm.Value), 0.1);
        }
    }

    [Fact]
    public void Tech3341_Test12_MomentaryIsConstantAfter1Second()
    {
        var signal = Steps(Rate, 1000, Repeat(25, (0.18, -20), (0.22, -30)));
        Assert.All(Readings(signal, after: 1.0, m => m.Momentary.Value), v => Assert.Equal(-23, v, 0.1));
    }

    [Fact]
    public void Tech3341_Test13_FileMeters_MaximumMomentaryIsFoundAtAnyOffset()
    {
        for (var i = 0; i < 20; i++)
            Assert.Equal(-23, Measure(Steps(Rate, 1000, (i * 0.02, Silence), (0.4, -23), (1, Silence))).MaxMomentary.Value, 0.1);
    }

    [Fact]
    public void Tech3341_Test14_LiveMeters_MaximumMomentaryFollowsEachStep()
    {
        var meter = new LoudnessMeter(Rate);
        for (var i = 0; i < 20; i++)
        {
            var signal = Steps(Rate, 1000, (i * 0.02, Silence), (0.4, -38 + i), (0.4 - (i * 0.02), Silence));
            Assert.Equal(-38 + i, Largest(meter, signal, m => m.Momentary.Value), 0.1);
        }
    }

    // Signals 15 to 19: pure tones whose samples miss the crest; +0.2 / −0.4 dB as printed.
    [Theory]
    [InlineData(4, 0.50, 0.0, -6.0)]
    [InlineData(4, 0.50, 45.0, -6.0)]
    [InlineData(6, 0.50, 60.0, -6.0)]
    [InlineData(8, 0.50, 67.5, -6.0)]
    [InlineData(4, 1.41, 45.0, 3.0)]
    public void Tech3341_Tests15To19_TonesBetweenSamples_ReadTheirTruePeak(int period, double amplitude, double phaseDegrees, double expected)
    {
        foreach (var rate in (int[])[44_100, 48_000, 88_200, 96_000])
            Assert.InRange(PeakOf(FadedTone(rate, period * rate / 48_000.0, amplitude, phaseDegrees), rate), expected - 0.4, expected + 0.2);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Tech3341_Tests20To23_PeakHiddenByDecimation_Reads0(int offset) =>
        Assert.InRange(PeakOf(HiddenPeak.At(offset), 48_000), -0.4, 0.2);

    [Fact]
    public void Tech3341_Alignment_StereoSine1kHzMinus18_ReadsMinus18_0() =>
        // Tech 3341 §2.9.
        Assert.Equal("−18.0 LUFS", Measure(Steps(Rate, 1000, (20, -18))).Integrated.ToString());

    private static double PeakOf(float[] samples, int rate)
    {
        var meter = new TruePeakMeter(rate);
        meter.Add(samples);
        return meter.Peak.Value;
    }

    private static float[] FadedTone(int rate, double period, double amplitude, double phaseDegrees)
    {
        var (count, fade) = (rate / 2, rate / 100);
        var samples = new float[count];
        for (var i = 0; i < count; i++)
        {
            var envelope = Math.Min(1, Math.Min(i, count - 1 - i) / (double)fade);
            samples[i] = (float)(amplitude * envelope * Math.Sin((2 * Math.PI * i / period) + (phaseDegrees * Math.PI / 180)));
        }

        return samples;
    }

    private static List<double> Readings(float[] signal, double after, Func<LoudnessMeter, double> read)
    {
        var meter = new LoudnessMeter(Rate);
        var readings = new List<double>();
        for (var at = 0; at + 480 <= signal.Length; at += 480)
        {
            meter.Add(signal.AsSpan(at, 480), signal.AsSpan(at, 480));
            if (at + 480 >= after * Rate)
                readings.Add(read(meter));
        }

        return readings;
    }

    private static double Largest(LoudnessMeter meter, float[] signal, Func<LoudnessMeter, double> read)
    {
        var largest = double.NegativeInfinity;
        for (var at = 0; at + 480 <= signal.Length; at += 480)
        {
            meter.Add(signal.AsSpan(at, 480), signal.AsSpan(at, 480));
            largest = Math.Max(largest, read(meter));
        }

        return largest;
    }
}
