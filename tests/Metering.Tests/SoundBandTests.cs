using Athwart.Metering.Tests.Faults;
using Athwart.Metering.Tests.Support;

namespace Athwart.Metering.Tests;

/// <summary>How many octaves down a take can go; expected values by construction.</summary>
public class SoundBandTests
{
    private const int Rate = 192_000, Count = 4 * Rate;

    [Theory]
    [InlineData(61_000, 1.61)]
    [InlineData(40_000, 1.0)]
    [InlineData(12_000, 0)]
    public void BurstsUpToAFrequency_AreSoundUpToThere(double top, double octaves)
    {
        var mid = White(351, 1e-4);
        for (var burst = 0; burst < 6; burst++)
        {
            // A chirp of 100 ms from 1 kHz to the top: flat up to there, nothing above.
            for (var i = 0; i < Rate / 10; i++)
            {
                var t = i / (double)Rate;
                mid[((burst + 1) * 90_000) + i] += (float)(0.1 * Math.Min(1, Math.Min(i, (Rate / 10) - i) / 500.0) * Math.Sin(2 * Math.PI * ((1000 * t) + ((top - 1000) * 5 * t * t))));
            }
        }

        var role = Measure(mid).Mid;
        // A twelfth of an octave is 6 %; the chirp's own skirt reaches one further.
        Assert.InRange(role.HighestSoundFrequency.Value, top / 1.06, top * 1.13);
        Assert.Equal(octaves, role.OctavesDown, tolerance: 0.18);
    }

    [Fact]
    public void SteadySoundThatFallsIntoTheNoise_EndsThere()
    {
        // Poles at 500 and 1925 Hz (0.063 of the rate over 2π): at f the density is 2·0.02²/(π·500)·(500/f)²·(1925/f)². White noise of
        // 2.1e-4 has 4.6e-13 a hertz up to 96 kHz; the sum lies 8 dB (6.3 times) above that where the sound is 5.3 times the noise: 21 kHz.
        var mid = White(352, 2.1e-4);
        var fall = FaultSignals.Ambience(Count, 0.02, 353, 500, Rate);
        var state = 0f;
        for (var i = 0; i < Count; i++)
            mid[i] += state += 0.063f * (fall[i] - state);
        Assert.InRange(Measure(mid).Mid.HighestSoundFrequency.Value, 21_000 / 1.13, 21_000 * 1.13);
    }

    [Fact]
    public void SteadyNoiseAlone_HasNoSound() => Assert.Equal(0, Measure(White(354, 1e-3)).Mid.HighestSoundFrequency.Value);

    private static TakeMeasures Measure(float[] mid) => Tones.Take(mid.Rounded(24), White(355, 1e-5).Rounded(24), Rate, 24, faults: true);

    private static float[] White(int seed, double rms)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, Count).Select(_ => (float)(rms * Math.Sqrt(3) * ((2 * random.NextDouble()) - 1)))];
    }
}
