namespace Athwart.Metering.Events;

/// <summary>Running means of powers.</summary>
internal static class Smoothing
{
    /// <summary>The mean over each value and so many on either side; fewer at the ends.</summary>
    public static float[] Mean(ReadOnlySpan<float> powers, int reach)
    {
        var smooth = new float[powers.Length];
        for (var i = 0; i < smooth.Length; i++)
        {
            var (from, to) = (Math.Max(0, i - reach), Math.Min(powers.Length, i + reach + 1));
            var sum = 0.0;
            // Afresh each time: a running sum would keep the rounding of a loud moment for ever.
            for (var k = from; k < to; k++)
                sum += powers[k];
            smooth[i] = (float)(sum / (to - from));
        }

        return smooth;
    }
}
