namespace Athwart.Scenes.Tests.Support;

/// <summary>Plain measures in double.</summary>
internal static class Measure
{
    public static double Power(ReadOnlySpan<float> x) => Product(x, x);

    public static double Product(ReadOnlySpan<float> x, ReadOnlySpan<float> y)
    {
        double sum = 0;
        for (var i = 0; i < x.Length; i++)
            sum += (double)x[i] * y[i];
        return sum / x.Length;
    }

    public static double Correlation(ReadOnlySpan<float> x, ReadOnlySpan<float> y) => Product(x, y) / Math.Sqrt(Power(x) * Power(y));

    public static double Decibels(double ratio) => 20 * Math.Log10(Math.Abs(ratio));

    public static double PowerDecibels(double ratio) => 10 * Math.Log10(ratio);

    /// <summary>The complex amplitude of a sine of known frequency, by a Hann-weighted sum.</summary>
    public static (double Amplitude, double Phase) Sine(ReadOnlySpan<float> x, double hertz, double rate)
    {
        double real = 0, imaginary = 0, weights = 0;
        for (var i = 0; i < x.Length; i++)
        {
            var weight = 0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / x.Length));
            var (sin, cos) = Math.SinCos(2 * Math.PI * hertz * i / rate);
            real += weight * x[i] * cos;
            imaginary -= weight * x[i] * sin;
            weights += weight;
        }

        return (2 * Math.Sqrt((real * real) + (imaginary * imaginary)) / weights, Math.Atan2(imaginary, real));
    }

    /// <summary>How many samples y is later than x at one frequency, from the phases; within half a period.</summary>
    public static double DelaySamples(ReadOnlySpan<float> x, ReadOnlySpan<float> y, double hertz, double rate)
    {
        var difference = Math.IEEERemainder(Sine(x, hertz, rate).Phase - Sine(y, hertz, rate).Phase, 2 * Math.PI);
        return difference / (2 * Math.PI * hertz) * rate;
    }
}
