using Athwart.Metering.Events;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Metering.Tests.Events;

/// <summary>What counts as one event, on sounds made by hand.</summary>
public sealed class EventFinderTests
{
    private const int Rate = 48000;

    [Fact]
    public void Silence_HoldsNoEvent() => Assert.Empty(Find(new float[Rate], new float[Rate]));

    [Fact]
    public void NoSamples_HoldNoEvent() => Assert.Empty(Find([], []));

    [Fact]
    public void ABurstInDigitalSilence_IsFoundWithItsEdges()
    {
        var mid = new float[2 * Rate];
        Burst(mid, 0.7, 0.3, 0.1);
        var found = Assert.Single(Find(mid, new float[mid.Length]));
        Assert.InRange(found.Range.From.At(Rate).TotalSeconds, 0.68, 0.72);
        // Over nothing at all the filter of the lowest band is heard to ring: 70 dB take it 80 ms.
        Assert.InRange(found.Range.To.At(Rate).TotalSeconds, 0.98, 1.1);
    }

    [Fact]
    public void AStrikeInTheSideAlone_IsFoundThere()
    {
        var (mid, side) = (Noise(3, 0.001, 1), Noise(3, 0.001, 2));
        Burst(side, 1.5, 0.1, 0.05);
        Assert.Equal(ChannelRole.Side, Assert.Single(Find(mid, side)).Role);
    }

    [Fact]
    public void StepsThatDoNotDieAwayBetween_AreARowOfEvents()
    {
        var mid = Noise(6, 0.0005, 1);
        for (var at = 1.0; at < 4.9; at += 0.5)
            Ring(mid, at, 0.13, 0.3);
        Assert.Equal(8, Find(mid, new float[mid.Length]).Count);
    }

    [Fact]
    public void ARatchet_IsOneEvent()
    {
        var mid = Noise(6, 0.0005, 1);
        for (var at = 1.0; at < 4.0; at += 0.15)
            Ring(mid, at, 0.02, 0.3);
        Assert.Single(Find(mid, new float[mid.Length]));
    }

    [Fact]
    public void APassBy_StaysWhole()
    {
        var mid = Noise(20, 0.002, 1);
        var engine = Noise(20, 1, 2);
        for (var i = 0; i < mid.Length; i++)
        {
            var metres = 12.0 * ((double)i / Rate - 10);
            // Ten strokes a second.
            mid[i] += (float)(engine[i] * 0.6 / Math.Sqrt(9 + (metres * metres)) * (0.6 + (0.4 * Math.Sin(2 * Math.PI * 10 * i / Rate))));
        }

        var found = Assert.Single(Find(mid, new float[mid.Length]));
        Assert.InRange(found.Range.Length.At(Rate).TotalSeconds, 4, 20);
    }

    [Fact]
    public void PausesUpToTheGap_AreJoined_LongerOnesAreNot()
    {
        var mid = Noise(8, 0.0005, 1);
        Burst(mid, 1, 0.3, 0.1);
        Burst(mid, 1.5, 0.3, 0.1);
        Burst(mid, 4, 0.3, 0.1);
        Burst(mid, 4.7, 0.3, 0.1);
        Assert.Equal(3, Find(mid, new float[mid.Length], new() { SplitsRows = false }).Count);
        Assert.Equal(2, Find(mid, new float[mid.Length], new() { SplitsRows = false, JoinSeconds = 0.6 }).Count);
        Assert.Equal(4, Find(mid, new float[mid.Length], new() { SplitsRows = false, JoinSeconds = 0.1 }).Count);
    }

    [Fact]
    public void SamplesThatAreNoNumbers_CountAsSilenceAndAreCounted()
    {
        var mid = Noise(3, 0.001, 1);
        Burst(mid, 1, 0.2, 0.1);
        (mid[100], mid[60000], mid[120000]) = (float.NaN, float.PositiveInfinity, 1e30f);
        var finder = new EventFinder(Rate);
        finder.Add(mid, new float[mid.Length]);
        Assert.Single(finder.Complete(new()).Events);
        Assert.Equal(3, finder.NotFinite);
    }

    [Fact]
    public void HoweverTheTakeIsCutIntoBlocks_TheEventsAreTheSame()
    {
        var (mid, side) = (Noise(2, 0.001, 1), Noise(2, 0.001, 2));
        Burst(mid, 0.5, 0.2, 0.1);
        Ring(side, 1.2, 0.03, 0.2);
        var whole = Find(mid, side);
        Gen.Int[1, 9000].List[1, 40].Sample(
            sizes =>
            {
                var finder = new EventFinder(Rate);
                for (int at = 0, i = 0; at < mid.Length; i++)
                {
                    var count = Math.Min(sizes[i % sizes.Count], mid.Length - at);
                    finder.Add(mid.AsSpan(at, count), side.AsSpan(at, count));
                    at += count;
                }

                Assert.Equal(whole, finder.Complete(new()).Events);
            },
            iter: 10);
    }

    [Theory]
    [InlineData(8000)]
    [InlineData(44100)]
    [InlineData(192000)]
    public void AtEveryRate_ABurstIsFound(int rate)
    {
        var mid = Noise(2.0 * rate / Rate, 0.001, 1);
        for (var i = rate; i < rate + (rate / 4); i++)
            mid[i] += (float)(0.1 * Math.Sin(2 * Math.PI * 1000 * i / rate));
        var finder = new EventFinder(rate);
        finder.Add(mid, new float[mid.Length]);
        var found = Assert.Single(finder.Complete(new()).Events);
        Assert.InRange(found.Range.From.At(rate).TotalSeconds, 0.98, 1.02);
        // A loud sound that stops dead rings on in the filter of the lowest band.
        Assert.InRange(found.Range.To.At(rate).TotalSeconds, 1.23, 1.3);
    }

    [Fact]
    public void SettingsBeyondTheirRange_AreRefused()
    {
        foreach (var wrong in new EventSettings[] { new() { OnsetDecibels = 3 }, new() { OnsetDecibels = double.NaN }, new() { JoinSeconds = -1 }, new() { RowSeconds = 0 } })
            Assert.Throws<ArgumentOutOfRangeException>(() => new EventFinder(Rate).Complete(wrong));
    }

    private static IReadOnlyList<FoundEvent> Find(float[] mid, float[] side, EventSettings? settings = null) => EventAccuracy.Find(Rate, mid, side, settings);

    private static float[] Noise(double seconds, double rms, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, (int)(seconds * Rate)).Select(_ => (float)(rms * Math.Sqrt(3) * ((2 * random.NextDouble()) - 1)))];
    }

    private static void Burst(float[] samples, double at, double seconds, double level)
    {
        var noise = Noise(seconds, level, (int)(at * 1000));
        for (var i = 0; i < noise.Length; i++)
            samples[(int)(at * Rate) + i] += noise[i];
    }

    private static void Ring(float[] samples, double at, double decay, double level)
    {
        var first = (int)(at * Rate);
        for (var i = first; i < Math.Min(samples.Length, first + (12 * decay * Rate)); i++)
            samples[i] += (float)(level * Math.Exp(-(i - first) / (decay * Rate)) * Math.Sin(2 * Math.PI * 900 * i / Rate));
    }
}
