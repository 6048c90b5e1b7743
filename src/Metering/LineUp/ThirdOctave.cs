namespace Athwart.Metering.LineUp;

/// <summary>The third-octave bands: centres 1000·10^(n/10) Hz, edges a factor of 10^(1/20) to either side.</summary>
/// <remarks>Source: IEC 61260-1, base-ten system; nominal frequencies by ISO 266, from memory.</remarks>
internal static class ThirdOctave
{
    private static readonly double[] Nominal = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

    /// <summary>The exact centre of a band; band 0 is at 1 kHz.</summary>
    public static double Centre(int band) => 1000 * Math.Pow(10, band / 10.0);

    /// <summary>The lower edge.</summary>
    public static double From(int band) => Centre(band) * Math.Pow(10, -0.05);

    /// <summary>The upper edge.</summary>
    public static double To(int band) => Centre(band) * Math.Pow(10, 0.05);

    /// <summary>The frequency it goes by, such as 1600.</summary>
    public static double NominalHertz(int band)
    {
        var decade = (int)Math.Floor(band / 10.0);
        return Nominal[band - (10 * decade)] * Math.Pow(10, decade + 3);
    }

    /// <summary>The bands that lie wholly between two frequencies.</summary>
    public static IEnumerable<int> Between(double fromHertz, double toHertz) =>
        Enumerable.Range(-17, 38).Where(b => From(b) >= fromHertz && To(b) <= toHertz);
}
