@echo off
rem Runs rootgap from its sources on Windows, as ./rootgap does elsewhere: the .NET SDK 10 must be there, for serve and job also Node.js 20.
setlocal
where dotnet > nul 2> nul
if errorlevel 1 (
    echo rootgap: the .NET SDK is not installed. Install the .NET SDK 10 or newer from https://dot.net and see that dotnet is on the PATH. 1>&2
    exit /b 70
)
set DOTNET_CLI_TELEMETRY_OPTOUT=1
set DOTNET_NOLOGO=1
set project=Rootgap.Cli
if /i "%~1"=="serve" set project=Rootgap.Server
if /i "%~1"=="job" set project=Rootgap.Server
dotnet build "%~dp0src\%project%" -c Release -v quiet -nologo -p:RunAnalyzers=false > "%TEMP%\rootgap-build.log" 2>&1
if errorlevel 1 (
    type "%TEMP%\rootgap-build.log" 1>&2
    exit /b 70
)
dotnet "%~dp0src\%project%\bin\Release\net10.0\%project%.dll" %*
exit /b %errorlevel%
