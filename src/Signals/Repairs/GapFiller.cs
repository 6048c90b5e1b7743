namespace Athwart.Signals.Repairs;

/// <summary>Fills a gap with what an autoregressive model of its surroundings finds likeliest.</summary>
/// <remarks>
/// A. J. E. M. Janssen, R. N. J. Veldhuis and L. B. Vries (1986), from memory: the unknown samples that make the squared prediction error over
/// gap and edges least. With b[l] = Σ a[j]·a[j + l] they solve Σ b[|i − j|]·x[j] = −Σ b[|i − k|]·x[k] over the known k: a symmetric Toeplitz
/// system, solved by Levinson's recursion.
/// </remarks>
internal static class GapFiller
{
    /// <summary>Fewer frames than this on one side are not enough to meet.</summary>
    private const int LeastOrder = 32;

    /// <summary>The order of the model for a gap: longer gaps need to look further back.</summary>
    public static int Order(int gap) => Math.Min(32 + (2 * gap), 1024);

    /// <summary>How many frames on each side the model is fitted to.</summary>
    public static int Context(int gap) => Math.Max(4096, 6 * Order(gap));

    /// <summary>Replaces a gap in a stretch of sound.</summary>
    /// <param name="sound">What is known before, the gap, what is known after.</param>
    /// <param name="before">How many frames are known before; the gap begins there.</param>
    /// <param name="gap">Length of the gap.</param>
    public static void Fill(Span<double> sound, int before, int gap)
    {
        var after = sound.Length - before - gap;
        var (longer, shorter) = (Math.Max(before, after), Math.Min(before, after));
        var order = Math.Min(Order(gap), longer / 2);
        sound.Slice(before, gap).Clear();
        if (order < 1 || sound.IndexOfAnyExcept(0.0) < 0)
            return;
        // The equations below reach an order to both sides, and what lies beyond the take is not silence.
        var oneSided = shorter < Math.Min(order, LeastOrder);
        var model = AutoregressiveModel.Fit(sound[..before], sound[(before + gap)..], oneSided ? order : Math.Min(order, shorter));
        if (oneSided)
            GoOn(model, sound, before, gap, backwards: after > before);
        else
            FillBy(model, sound, before, gap);
    }

    // With nothing on the other side to meet, what the model foretells from one side is likeliest.
    private static void GoOn(double[] model, Span<double> sound, int before, int gap, bool backwards)
    {
        for (var n = 0; n < gap; n++)
        {
            var (at, step) = backwards ? (before + gap - 1 - n, 1) : (before + n, -1);
            for (var k = 1; k < model.Length; k++)
                sound[at] -= model[k] * sound[at + (k * step)];
        }
    }

    /// <summary>The same by a model that is known.</summary>
    internal static void FillBy(double[] model, Span<double> sound, int before, int gap)
    {
        var unknown = sound.Slice(before, gap);
        unknown.Clear();
        var (b, order) = (Correlation(model), model.Length - 1);
        var wanted = new double[gap];
        for (var i = 0; i < gap; i++)
        {
            var sum = 0.0;
            // The gap itself is nought, so all of the neighbourhood may be summed.
            for (var k = Math.Max(0, before + i - order); k <= Math.Min(sound.Length - 1, before + i + order); k++)
                sum -= b[Math.Abs(before + i - k)] * sound[k];
            wanted[i] = sum;
        }

        SolveToeplitz(b, wanted, unknown);
    }

    private static double[] Correlation(double[] a)
    {
        var b = new double[a.Length];
        for (var l = 0; l < a.Length; l++)
        {
            for (var j = 0; j + l < a.Length; j++)
                b[l] += a[j] * a[j + l];
        }

        b[0] *= 1 + 1e-13; // keeps the matrix clear of singular for pure tones
        return b;
    }

    /// <summary>Σ t[|i − j|]·x[j] = y[i], t[l] being 0 from t.Length on.</summary>
    internal static void SolveToeplitz(ReadOnlySpan<double> t, ReadOnlySpan<double> y, Span<double> x)
    {
        var predictor = new double[y.Length]; // solves the system for the next column, grown by one each round
        x[0] = y[0] / t[0];
        var error = t[0];
        for (var m = 1; m < y.Length; m++)
        {
            // Only as far as t reaches.
            var sum = m < t.Length ? t[m] : 0;
            for (var k = Math.Max(1, m - t.Length + 1); k < m; k++)
                sum += predictor[k - 1] * t[m - k];
            var reflection = -sum / error;
            for (var (i, j) = (0, m - 2); i <= j; i++, j--)
                (predictor[i], predictor[j]) = (predictor[i] + (reflection * predictor[j]), predictor[j] + (reflection * predictor[i]));
            predictor[m - 1] = reflection;
            error *= 1 - (reflection * reflection);
            var rest = y[m];
            for (var k = Math.Max(0, m - t.Length + 1); k < m; k++)
                rest -= t[m - k] * x[k];
            var share = rest / error;
            for (var k = 0; k < m; k++)
                x[k] += share * predictor[m - 1 - k];
            x[m] = share;
        }
    }
}
