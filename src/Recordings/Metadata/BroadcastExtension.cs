using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;

namespace Athwart.Recordings;

/// <summary>The `bext` chunk of a Broadcast Wave file, versions 0, 1 and 2.</summary>
/// <remarks>Source: EBU Tech 3285 v2 (May 2011). Text is ASCII by the standard; UTF-8 and Latin-1 are read, and UTF-8 is written where ASCII does not do.</remarks>
public sealed record BroadcastExtension
{
    /// <summary>Bytes before the coding history.</summary>
    public const int FixedSize = 602;

    /// <summary>What loudness fields hold when they are not used; common practice, no source.</summary>
    private const short NotUsed = 0x7FFF;

    /// <summary>What it is; 256 bytes at most, the first 64 a summary.</summary>
    public string Description { get; init; } = "";

    /// <summary>Who or what made it; 32 bytes at most.</summary>
    public string Originator { get; init; } = "";

    /// <summary>The originator's reference; 32 bytes at most.</summary>
    public string OriginatorReference { get; init; } = "";

    /// <summary>yyyy-mm-dd, as stored; any separator is read.</summary>
    public string OriginationDate { get; init; } = "";

    /// <summary>hh:mm:ss, as stored; any separator is read.</summary>
    public string OriginationTime { get; init; } = "";

    /// <summary>Samples since midnight at the first frame.</summary>
    public ulong TimeReference { get; init; }

    /// <summary>0, 1 (UMID) or 2 (loudness).</summary>
    public int Version { get; init; } = 2;

    /// <summary>64 bytes of UMID (SMPTE 330M); empty for none.</summary>
    public ImmutableArray<byte> Umid { get; init; } = [];

    /// <summary>Integrated loudness in LUFS; null when not used or before version 2. Stored in hundredths.</summary>
    public double? LoudnessValue { get; init; }

    /// <summary>Loudness range in LU; null when not used.</summary>
    public double? LoudnessRange { get; init; }

    /// <summary>Maximum true peak in dBTP; null when not used.</summary>
    public double? MaxTruePeakLevel { get; init; }

    /// <summary>Maximum momentary loudness in LUFS; null when not used.</summary>
    public double? MaxMomentaryLoudness { get; init; }

    /// <summary>Maximum short-term loudness in LUFS; null when not used.</summary>
    public double? MaxShortTermLoudness { get; init; }

    /// <summary>How it was made, one line a step (EBU R 98), lines ended by CR LF.</summary>
    public string CodingHistory { get; init; } = "";

    /// <summary>Reads the data of a chunk; text fields end at their first NUL.</summary>
    /// <exception cref="FormatException">Fewer than 602 bytes.</exception>
    public static BroadcastExtension Parse(ReadOnlySpan<byte> data)
    {
        if (data.Length < FixedSize)
            throw new FormatException($"a bext chunk has at least {FixedSize} bytes, this one {data.Length}");
        int version = BinaryPrimitives.ReadUInt16LittleEndian(data[346..]);
        var umid = data.Slice(348, 64);
        return new()
        {
            Description = ChunkText.Read(data[..256]),
            Originator = ChunkText.Read(data.Slice(256, 32)),
            OriginatorReference = ChunkText.Read(data.Slice(288, 32)),
            OriginationDate = ChunkText.Read(data.Slice(320, 10)),
            OriginationTime = ChunkText.Read(data.Slice(330, 8)),
            TimeReference = BinaryPrimitives.ReadUInt64LittleEndian(data[338..]),
            Version = version,
            Umid = version >= 1 && umid.ContainsAnyExcept((byte)0) ? [.. umid] : [],
            LoudnessValue = Hundredths(data[412..], version),
            LoudnessRange = Hundredths(data[414..], version),
            MaxTruePeakLevel = Hundredths(data[416..], version),
            MaxMomentaryLoudness = Hundredths(data[418..], version),
            MaxShortTermLoudness = Hundredths(data[420..], version),
            CodingHistory = ChunkText.Read(data[FixedSize..]),
        };
    }

    /// <summary>The data of a chunk. Text too long for its field is cut between characters; the reserved bytes are zero.</summary>
    public byte[] ToBytes()
    {
        var data = new byte[FixedSize + Encoding.UTF8.GetByteCount(CodingHistory)];
        ChunkText.WriteField(Description, data.AsSpan(0, 256));
        ChunkText.WriteField(Originator, data.AsSpan(256, 32));
        ChunkText.WriteField(OriginatorReference, data.AsSpan(288, 32));
        ChunkText.WriteField(OriginationDate, data.AsSpan(320, 10));
        ChunkText.WriteField(OriginationTime, data.AsSpan(330, 8));
        BinaryPrimitives.WriteUInt64LittleEndian(data.AsSpan(338), TimeReference);
        BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(346), (ushort)Version);
        if (Version >= 1 && !Umid.IsDefaultOrEmpty)
            Umid.AsSpan()[..Math.Min(64, Umid.Length)].CopyTo(data.AsSpan(348));
        if (Version >= 2)
            WriteLoudness(data.AsSpan(412));
        Encoding.UTF8.GetBytes(CodingHistory, data.AsSpan(FixedSize));
        return data;
    }

    private void WriteLoudness(Span<byte> fields)
    {
        ReadOnlySpan<double?> values = [LoudnessValue, LoudnessRange, MaxTruePeakLevel, MaxMomentaryLoudness, MaxShortTermLoudness];
        for (var i = 0; i < values.Length; i++)
            BinaryPrimitives.WriteInt16LittleEndian(fields[(2 * i)..], Hundredths(values[i]));
    }

    private static double? Hundredths(ReadOnlySpan<byte> field, int version)
    {
        var value = BinaryPrimitives.ReadInt16LittleEndian(field);
        return version < 2 || value is NotUsed or short.MinValue ? null : value / 100.0;
    }

    /// <summary>Rounded half away from zero; silence, NaN and what the field cannot hold count as not used.</summary>
    private static short Hundredths(double? value)
    {
        var hundredths = Math.Round((value ?? double.NaN) * 100, MidpointRounding.AwayFromZero);
        return hundredths > short.MinValue && hundredths < NotUsed ? (short)hundredths : NotUsed;
    }
}
