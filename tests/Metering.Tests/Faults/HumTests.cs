using Athwart.Metering.Faults;
using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using static Athwart.Metering.Tests.Faults.FaultSignals;

namespace Athwart.Metering.Tests.Faults;

public class HumTests
{
    private const int Count = 12 * Tones.Rate;

    // EN 50160: 50 Hz ±1 % for 99.5 % of the time.
    [Theory]
    [InlineData(49.6, 48_000)]
    [InlineData(50.013, 48_000)]
    [InlineData(50.37, 44_100)]
    [InlineData(59.95, 96_000)]
    [InlineData(60.4, 48_000)]
    public void Hum_IsMeasuredToATwentiethOfATenthOfAHertz(double hertz, int rate)
    {
        var count = 10 * rate;
        var side = Ambience(count, 0.01, 11, rate: rate).Plus(Sine(count, hertz, 0.003, rate)).Plus(Sine(count, 2 * hertz, 0.002, rate)).Plus(Sine(count, 3 * hertz, 0.004, rate));
        var finding = Assert.Single(Find(FaultKinds.Hum, Ambience(count, 0.02, 12, rate: rate), side, rate));
        Assert.Equal(ChannelRole.Side, finding.Role);
        Assert.Equal(hertz, finding.Evidence.Single(e => e.Name == "frequency").Value, tolerance: 0.02);
        // Half of 0.003² + 0.002² + 0.004².
        Assert.Equal(10 * Math.Log10(29e-6 / 2), finding.Size!.Value, tolerance: 1.0);
    }

    [Fact]
    public void HumThatDrifts_IsFoundAtItsMeanFrequency()
    {
        var phase = 0.0;
        var mid = Ambience(Count, 0.01, 13);
        for (var i = 0; i < Count; i++)
        {
            phase += 2 * Math.PI * (50 + (0.05 * Math.Sin(2 * Math.PI * i / Count))) / Tones.Rate;
            mid[i] += (float)(0.004 * (Math.Sin(phase) + Math.Sin(2 * phase) + Math.Sin(3 * phase)));
        }

        var finding = Assert.Single(Find(FaultKinds.Hum, mid, Ambience(Count, 0.01, 14)));
        Assert.Equal(50, finding.Evidence.Single(e => e.Name == "frequency").Value, tolerance: 0.02);
    }

    [Fact]
    public void SoundWithoutMains_HasNoHum() => Assert.Empty(Find(FaultKinds.Hum, Ambience(Count, 0.05, 15), Ambience(Count, 0.02, 16)));

    [Fact]
    public void AnEngineWhoseSpeedWanders_IsNoHum()
    {
        var phase = 0.0;
        var mid = Ambience(Count, 0.01, 17);
        for (var i = 0; i < Count; i++)
        {
            phase += 2 * Math.PI * (50 + (2 * Math.Sin(2 * Math.PI * i / Count * 3))) / Tones.Rate;
            mid[i] += (float)(0.05 * (Math.Sin(phase) + Math.Sin(2 * phase)));
        }

        Assert.Empty(Find(FaultKinds.Hum, mid, Ambience(Count, 0.01, 18)));
    }
}
