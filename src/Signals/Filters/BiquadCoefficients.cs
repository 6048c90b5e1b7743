namespace Athwart.Signals.Filters;

/// <summary>A second-order section y[n] = b0·x[n] + b1·x[n−1] + b2·x[n−2] − a1·y[n−1] − a2·y[n−2].</summary>
/// <remarks>The sign convention is that of ITU-R BS.1770-5 Annex 1, Figure 3. <c>default</c> gives silence.</remarks>
/// <param name="B0">Weight of the sample itself.</param>
/// <param name="B1">Weight of the sample before.</param>
/// <param name="B2">Weight of the sample two before.</param>
/// <param name="A1">Weight of the output before, subtracted.</param>
/// <param name="A2">Weight of the output two before, subtracted.</param>
public readonly record struct BiquadCoefficients(double B0, double B1, double B2, double A1, double A2)
{
    /// <summary>The amplitude ratio at a frequency; 0 Hz to half the rate.</summary>
    /// <param name="frequencyHertz">Frequency in hertz.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public double AmplitudeRatioAt(double frequencyHertz, double sampleRateHertz)
    {
        var z1 = System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * frequencyHertz / sampleRateHertz);
        var z2 = z1 * z1;
        return System.Numerics.Complex.Abs((B0 + (B1 * z1) + (B2 * z2)) / (1 + (A1 * z1) + (A2 * z2)));
    }
}
