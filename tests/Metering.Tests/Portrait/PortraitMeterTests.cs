using Athwart.Metering.Portrait;

namespace Athwart.Metering.Tests.Portrait;

public sealed class PortraitMeterTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(4096)]
    [InlineData(4097)]
    [InlineData(19999)]
    public void AnySplitIntoBlocks_GivesTheSamePortrait(int block)
    {
        var (mid, side) = Noise(20000);
        AssertSame(Portrait(mid, side, 48000, 100, 0.7), Portrait(mid, side, 48000, 100, 0.7, block));
    }

    [Fact]
    public void HalfScaleSine_HasItsPeakAndRmsInEveryColumn()
    {
        var portrait = Portrait(Sine(48000, 1000, 0.5, 48000), new float[48000], 48000, 50, 1);
        Assert.Equal(50, portrait.Columns);
        Assert.All(portrait.Mid.Highest, v => Assert.Equal(0.5, v, 3));
        Assert.All(portrait.Mid.Lowest, v => Assert.Equal(-0.5, v, 3));
        // 960 frames a column are 20 whole periods.
        Assert.All(portrait.Mid.Rms, v => Assert.Equal(0.5 / Math.Sqrt(2), v, 6));
        Assert.Equal(0, portrait.Side.Peak);
    }

    // Correlation identity for uncorrelated mid and side of powers PM, PS: r = (PM − PS) / (PM + PS).
    [Theory]
    [InlineData(1.0, 0.0, 1.0)]
    [InlineData(0.0, 1.0, -1.0)]
    [InlineData(0.5, 0.5, 0.0)]
    [InlineData(0.8, 0.4, 0.6)]
    public void SineMidCosineSide_HasTheCorrelationOfTheIdentity(double midAmplitude, double sideAmplitude, double expected)
    {
        var portrait = Portrait(Sine(96000, 500, midAmplitude, 48000), Sine(96000, 500, sideAmplitude, 48000, Math.PI / 2), 48000, 200, 1);
        Assert.All(portrait.Correlation, r => Assert.Equal(expected, r, 2));
    }

    [Fact]
    public void SideGain_ScalesTheSideInTheCorrelation()
    {
        var portrait = Portrait(Sine(96000, 500, 0.8, 48000), Sine(96000, 500, 0.8, 48000, Math.PI / 2), 48000, 20, 0.5);
        Assert.All(portrait.Correlation, r => Assert.Equal(0.6, r, 2));
    }

    [Fact]
    public void SilenceAndASoundInOneLoudspeaker_HaveNoCorrelation()
    {
        var tone = Sine(48000, 500, 0.5, 48000);
        Assert.All(Portrait(new float[48000], new float[48000], 48000, 9, 1).Correlation, r => Assert.True(float.IsNaN(r)));
        Assert.All(Portrait(tone, tone, 48000, 9, 1).Correlation, r => Assert.True(float.IsNaN(r)));
    }

    [Theory]
    [InlineData(48000, 1000)]
    [InlineData(96000, 40000)]
    [InlineData(192000, 60)]
    public void FullScaleTone_ReadsZeroInItsRowAndFarLessElsewhere(int rate, double hertz)
    {
        var portrait = Portrait(new float[rate], Sine(rate, hertz, 1, rate), rate, 40, 1);
        var picture = portrait.SideSpectrogram;
        Assert.Equal(rate / 2.0, picture.HighestHertz);
        var row = (int)(Math.Log(hertz / 20) / Math.Log(picture.HighestHertz / 20) * picture.Rows);
        // Hann: at most 1.42 dB less between bins (closed form of the window's transform at half a bin).
        Assert.InRange(Enumerable.Range(row - 1, 3).Max(r => picture.LevelDecibelsFullScale(20, r)), -1.5, 0);
        var octave = (int)Math.Ceiling(picture.Rows / Math.Log2(picture.HighestHertz / 20));
        for (var r = 0; r < picture.Rows; r++)
        {
            // The main lobe of the window is four bins wide, which at low frequencies is more than an octave.
            var away = Math.Abs((20 * Math.Pow(picture.HighestHertz / 20, (r + 0.5) / picture.Rows)) - hertz);
            if (Math.Abs(r - row) > octave && away > 6 / picture.WindowSeconds)
                Assert.True(picture.LevelDecibelsFullScale(20, r) < -60, $"row {r}: {picture.LevelDecibelsFullScale(20, r)}");
            // Nothing of the side shows in the mid, though one transform serves both.
            Assert.Equal(-127.5, portrait.MidSpectrogram.LevelDecibelsFullScale(20, r));
        }
    }

    [Fact]
    public void AClickAnywhere_ShowsInTheSpectrogramOfALongTake()
    {
        for (var at = 0; at < 960000; at += 47111)
        {
            var mid = new float[960000];
            mid[at] = 1;
            var picture = Portrait(mid, new float[960000], 48000, 20, 1).MidSpectrogram;
            var column = (int)((long)at * 20 / 960000);
            var seen = Enumerable.Range(Math.Max(0, column - 1), 2).Max(c => picture.LevelDecibelsFullScale(c, picture.Rows / 2));
            Assert.True(seen > -100, $"click at {at}: {seen}");
        }
    }

    [Fact]
    public void LeftAlone_LiesOnTheDiagonalToTheUpperLeft()
    {
        var tone = Sine(4800, 100, 0.25, 48000);
        var vector = Portrait(tone, tone, 48000, 10, 1).Vector;
        for (var i = 0; i < vector.Density.Length; i++)
        {
            var (x, y) = (i % vector.Size, i / vector.Size);
            if (vector.Density[i] > 0)
                Assert.InRange(x + y, vector.Size - 2, vector.Size);
        }

        Assert.InRange(vector.Range, 0.25, 0.26);
        Assert.Equal(255, vector.Density.Max());
    }

    [Fact]
    public void AnOutburst_AtTheStartOrTheEnd_LeavesTheSameVectorPicture()
    {
        var (mid, side) = Noise(5000);
        for (var i = 0; i < 4000; i++)
            (mid[i], side[i]) = (mid[i] * 1e-4f, side[i] * 1e-4f);
        var forward = Portrait(mid, side, 48000, 10, 1).Vector;
        Array.Reverse(mid);
        Array.Reverse(side);
        Assert.Equal(forward.Density, Portrait(mid, side, 48000, 10, 1).Vector.Density);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void VeryShortCuts_GetAColumnAFrame(int frames)
    {
        var (mid, side) = Noise(frames);
        var portrait = Portrait(mid, side, 48000, 100, 1);
        Assert.Equal(frames, portrait.Columns);
        Assert.Equal(frames * portrait.MidSpectrogram.Rows, portrait.MidSpectrogram.HalfDecibelSteps.Length);
        Assert.Equal(mid, portrait.Mid.Highest);
    }

    [Fact]
    public void SamplesThatAreNoNumbers_CountAndDrawAsZero()
    {
        var portrait = Portrait([0.5f, float.NaN, float.PositiveInfinity], [0, float.NegativeInfinity, 0.25f], 48000, 3, 1);
        Assert.Equal(3, portrait.NonFiniteSamples);
        Assert.Equal([0.5f, 0, 0], portrait.Mid.Highest);
        Assert.Equal([0, 0, 0.25f], portrait.Side.Highest);
    }

    [Fact]
    public void MoreOrFewerFramesThanAnnounced_AreRefused()
    {
        var meter = new PortraitMeter(10, 48000, 5, 1);
        Assert.Throws<ArgumentException>(() => meter.Add(new float[11], new float[11]));
        Assert.Throws<ArgumentException>(() => meter.Add(new float[3], new float[4]));
        meter.Add(new float[9], new float[9]);
        Assert.Throws<InvalidOperationException>(meter.Complete);
    }

    [Fact]
    public void Adding_AllocatesNothing()
    {
        var (mid, side) = Noise(200000);
        var meter = new PortraitMeter(400000, 48000, 100, 1);
        meter.Add(mid, side);
        var before = GC.GetAllocatedBytesForCurrentThread();
        meter.Add(mid, side);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    private static TakePortrait Portrait(float[] mid, float[] side, int rate, int columns, double sideGain, int block = int.MaxValue)
    {
        var meter = new PortraitMeter(mid.Length, rate, columns, sideGain);
        for (var from = 0; from < mid.Length; from += Math.Min(block, mid.Length - from))
        {
            var count = Math.Min(block, mid.Length - from);
            meter.Add(mid.AsSpan(from, count), side.AsSpan(from, count));
        }

        return meter.Complete();
    }

    private static void AssertSame(TakePortrait expected, TakePortrait actual)
    {
        Assert.Equal(expected.Mid.Lowest, actual.Mid.Lowest);
        Assert.Equal(expected.Mid.Highest, actual.Mid.Highest);
        Assert.Equal(expected.Mid.Rms, actual.Mid.Rms);
        Assert.Equal(expected.Side.Lowest, actual.Side.Lowest);
        Assert.Equal(expected.Side.Rms, actual.Side.Rms);
        Assert.Equal(expected.Correlation, actual.Correlation);
        Assert.Equal(expected.Vector.Density, actual.Vector.Density);
        Assert.Equal(expected.MidSpectrogram.HalfDecibelSteps, actual.MidSpectrogram.HalfDecibelSteps);
        Assert.Equal(expected.SideSpectrogram.HalfDecibelSteps, actual.SideSpectrogram.HalfDecibelSteps);
    }

    private static float[] Sine(int frames, double hertz, double amplitude, int rate, double phase = 0)
        => [.. Enumerable.Range(0, frames).Select(i => (float)(amplitude * Math.Sin((2 * Math.PI * hertz * i / rate) + phase)))];

    private static (float[] Mid, float[] Side) Noise(int frames)
    {
        var random = new Random(11);
        return ([.. Enumerable.Range(0, frames).Select(_ => (random.NextSingle() * 2) - 1)], [.. Enumerable.Range(0, frames).Select(_ => (random.NextSingle() * 1.4f) - 0.7f)]);
    }
}
