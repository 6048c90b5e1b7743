namespace Athwart.Jobs.Evidences;

/// <summary>A pair that lies in memory.</summary>
internal sealed class HeldSound(float[] mid, float[] side, int sampleRateHertz) : IPairSound
{
    public int SampleRateHertz => sampleRateHertz;

    public long Frames => mid.Length;

    public bool HasSide => true;

    public (float[] Mid, float[] Side) Read(long from, long to) => (Part(mid, from, to), Part(side, from, to));

    private static float[] Part(float[] samples, long from, long to)
    {
        var part = new float[Math.Max(0, to - from)];
        for (var i = 0; i < part.Length; i++)
        {
            if (from + i >= 0 && from + i < samples.Length)
                part[i] = samples[from + i];
        }

        return part;
    }
}
