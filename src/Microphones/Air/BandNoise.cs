using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Air;

/// <summary>The share of a white noise, known by its A-weighted level, in a third-octave band.</summary>
public static class BandNoise
{
    /// <summary>A third octave's width against its middle, 10^0.05 − 10^−0.05 (base-ten bands of IEC 61260-1).</summary>
    private static readonly double RelativeWidth = Math.Pow(10, 0.05) - Math.Pow(10, -0.05);

    /// <summary>Effective width in hertz of the A weighting from 20 Hz to 20 kHz.</summary>
    public static double WeightedWidthHertz { get; } = Integrate();

    /// <summary>The level of the third-octave band at a frequency, in dB SPL, of a white noise of so many dBA.</summary>
    public static double ThirdOctaveDecibels(double noiseDecibelsA, double hertz)
        => noiseDecibelsA + (10 * Math.Log10(hertz * RelativeWidth / WeightedWidthHertz));

    /// <summary>Middle of each 10 Hz strip: the weighting is smooth enough for six digits.</summary>
    private static double Integrate()
    {
        var sum = 0.0;
        for (var hertz = 25; hertz < 20_000; hertz += 10)
            sum += WeightingA.Power(hertz) * 10;
        return sum;
    }
}
