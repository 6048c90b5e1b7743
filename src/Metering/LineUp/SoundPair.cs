namespace Athwart.Metering.LineUp;

/// <summary>The two channels of a line-up, as they are and without what is below 400 Hz, where wind lives.</summary>
internal sealed class SoundPair
{
    private const double LowCutHertz = 400;
    private const int LowCutOrder = 3;

    /// <summary>Takes two channels of one length.</summary>
    public SoundPair(float[] a, float[] b, int rate)
    {
        (Rate, Length) = (rate, a.Length);
        Whole = [a, b];
        Cut = [LowCut(a, rate), LowCut(b, rate)];
    }

    /// <summary>Frames a second.</summary>
    public int Rate { get; }

    /// <summary>Frames.</summary>
    public int Length { get; }

    /// <summary>The channels as recorded.</summary>
    public float[][] Whole { get; }

    /// <summary>The channels with the low cut; both have the same cut, so their ratio is untouched.</summary>
    public float[][] Cut { get; }

    /// <summary>Whole frames in a time.</summary>
    public int Frames(double milliseconds) => (int)Math.Round(milliseconds * Rate / 1000);

    private static float[] LowCut(float[] samples, int rate)
    {
        var pole = Math.Exp(-2 * Math.PI * LowCutHertz / rate);
        var result = samples;
        for (var order = 0; order < LowCutOrder; order++)
        {
            var output = new float[samples.Length];
            var (before, state) = (0.0, 0.0);
            for (var i = 0; i < output.Length; i++)
            {
                state = (pole * state) + ((1 + pole) / 2 * (result[i] - before));
                before = result[i];
                output[i] = (float)state;
            }

            result = output;
        }

        return result;
    }
}
