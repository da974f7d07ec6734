@echo off
rem Makes the server a Windows service, or takes it away again. Run it as administrator:
rem   service.cmd install C:\Jobs        serves the jobs below C:\Jobs to the shop's network, from now on and after every start of the machine
rem   service.cmd remove
setlocal
if /i "%~1"=="install" if not "%~2"=="" goto install
if /i "%~1"=="remove" goto remove
echo usage: service.cmd install FOLDER-OF-JOBS   or   service.cmd remove
exit /b 64

:install
if not exist "%~f2\" (
    echo There is no folder %~f2.
    exit /b 3
)
rem A service of the machine's own least account: it may write where that account may, so the folder is opened to it.
icacls "%~f2" /grant "NT AUTHORITY\LocalService:(OI)(CI)M" > nul || exit /b 1
sc.exe create Rootgap start= auto obj= "NT AUTHORITY\LocalService" DisplayName= "Rootgap" binPath= "\"%~dp0..\program\Rootgap.Server.exe\" serve --jobs \"%~f2\" --shop-network --port 5080" || exit /b 1
sc.exe failure Rootgap reset= 86400 actions= restart/5000 > nul
sc.exe start Rootgap || exit /b 1
echo The service Rootgap serves the jobs below %~f2 on port 5080.
exit /b 0

:remove
sc.exe stop Rootgap > nul
sc.exe delete Rootgap || exit /b 1
exit /b 0
