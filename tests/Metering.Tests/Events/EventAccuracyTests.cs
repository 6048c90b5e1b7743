namespace Athwart.Metering.Tests.Events;

/// <summary>How exactly events are found in takes whose truth is known; figures go to the test's output.</summary>
public sealed class EventAccuracyTests(ITestOutputHelper output)
{
    private static readonly bool Soak = string.Equals(Environment.GetEnvironmentVariable("ATHWART_SOAK"), "1", StringComparison.Ordinal);

    [Fact]
    public void At20DecibelsOverTheFloor_95PercentOfStartsAreWithin20Milliseconds_AndBothEdgesOf9In10()
    {
        var accuracy = Measure(20, 1, 6);
        Assert.True(accuracy is { Missed: 0, False: 0, CloseShare: >= 0.9, StartsWithin: <= 0.02 }, accuracy.ToString());
    }

    [Fact]
    public void At15DecibelsOverTheFloor_NoneIsMissed()
    {
        var accuracy = Measure(15, 1001, 6);
        Assert.True(accuracy.Missed == 0, accuracy.ToString());
    }

    [Fact]
    public void InPureAmbience_NothingIsCut() => Assert.Equal(0, FalseCuts(2001, 4, 20));

    [Theory]
    [InlineData(15)]
    [InlineData(20)]
    [InlineData(30)]
    [InlineData(40)]
    public void OverManyTakes_EventsAreFoundAndPlaced(double height)
    {
        Assert.SkipUnless(Soak, "a hundred takes last minutes; set ATHWART_SOAK=1");
        var accuracy = Measure(height, 5001 + (ulong)height, 60);
        Assert.True(accuracy is { Missed: 0, False: 0, StartsWithin: <= 0.02 } && accuracy.CloseShare >= (height < 20 ? 0.85 : 0.9), accuracy.ToString());
    }

    [Fact]
    public void InAnHourOfPureAmbiences_NothingIsCut()
    {
        Assert.SkipUnless(Soak, "an hour of takes lasts minutes; set ATHWART_SOAK=1");
        Assert.Equal(0, FalseCuts(9001, 60, 60));
    }

    private EventAccuracy Measure(double height, ulong firstSeed, int takes)
    {
        var accuracy = new EventAccuracy();
        for (var seed = firstSeed; seed < firstSeed + (ulong)takes; seed++)
            accuracy.Add(seed, EventScenes.Make(seed, height));
        output.WriteLine(FormattableString.Invariant($"{height} dB: {accuracy}"));
        accuracy.Far.ForEach(output.WriteLine);
        return accuracy;
    }

    private int FalseCuts(ulong firstSeed, int takes, double seconds)
    {
        var cuts = 0;
        for (var seed = firstSeed; seed < firstSeed + (ulong)takes; seed++)
        {
            var (rate, mid, side) = EventScenes.Ambience(seed, seconds);
            foreach (var found in EventAccuracy.Find(rate, mid, side))
            {
                cuts++;
                output.WriteLine(FormattableString.Invariant($"seed {seed}: {found.Range.From.Value / (double)rate:0.000} to {found.Range.To.Value / (double)rate:0.000} s, {found.Height.Value:0.0} dB in the {found.Role}"));
            }
        }

        return cuts;
    }
}
